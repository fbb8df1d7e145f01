// SPDX-License-Identifier: MIT
#include "terminal.h"

#include <signal.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cmath>
#include <cstdio>
#include <cstring>

#include "ovendays/base/error.h"
#include "ovendays/base/file.h"

namespace ovendays::cli {
namespace {
constexpr int kUsualWidth = 80;
constexpr int kWidest = 100;

// Only async-signal-safe calls are allowed here: unlink and _exit.
extern "C" void end_by_signal(int number) {
  base::remove_pending_files();
  ::_exit(128 + number);
}
}  // namespace

void print(const std::string& content) {
  // Text may contain names from weather and case files, which must not send control sequences.
  const std::string text = base::printable(content, '\n');
  errno = 0;
  const bool whole = std::fwrite(text.data(), 1, text.size(), stdout) == text.size();
  if (whole && std::fflush(stdout) == 0) return;
  if (errno == EPIPE) throw ReaderGone{};
  throw base::RunError(std::string("standard output: cannot be written: ") + std::strerror(errno));
}

int terminal_width() {
  winsize size{};
  if (::isatty(STDOUT_FILENO) == 0 || ::ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) != 0) {
    return kUsualWidth;
  }
  return size.ws_col == 0 ? kUsualWidth : std::min<int>(size.ws_col, kWidest);
}

void handle_signals() {
  struct sigaction action {};
  action.sa_handler = end_by_signal;
  ::sigemptyset(&action.sa_mask);
  for (const int number : {SIGINT, SIGTERM, SIGHUP}) ::sigaction(number, &action, nullptr);
  // print() detects a closed pipe by the error of its write.
  ::signal(SIGPIPE, SIG_IGN);
}

Progress::Progress() : terminal_(::isatty(STDERR_FILENO) != 0) {}

Progress::~Progress() {
  if (shown_) std::fputs("\r\033[K", stderr);
}

void Progress::show(double share_done, const std::string& doing) {
  if (!terminal_) return;
  const Clock::time_point now = Clock::now();
  const std::chrono::duration<double> run = now - start_;
  const std::chrono::duration<double> since = now - last_;
  // Short runs show nothing, and updates are limited to five a second.
  if (run.count() < 1.0 || (shown_ && since.count() < 0.2)) return;
  const double left_s = share_done > 0 ? run.count() * (1.0 - share_done) / share_done : 0.0;
  constexpr std::size_t kRoom = 46;  // columns left beside the numbers in a terminal of 80
  std::string what = base::printable(doing);
  if (what.size() > kRoom) what = base::printable(what.substr(0, kRoom)) + "...";
  std::fprintf(stderr,
               "\r\033[K%3.0f %%, about %.0f s left%s%s",
               100.0 * share_done,
               std::ceil(left_s),
               what.empty() ? "" : ": ",
               what.c_str());
  std::fflush(stderr);
  last_ = now;
  shown_ = true;
}
}  // namespace ovendays::cli
