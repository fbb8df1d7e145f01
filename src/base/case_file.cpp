// SPDX-License-Identifier: MIT
// Whole case files: parsing, the text of all documents, unknown keys, and the order of faults.
#include <algorithm>
#include <numeric>
#include <optional>
#include <string_view>
#include <utility>

#include "case_access.h"
#include "ovendays/base/file.h"

namespace ovendays::base {
namespace {
constexpr std::size_t kMostFaults = 200;
constexpr int kMostDots = 64;

// Finds a dotted key with too many parts and returns its line, or 0. The parser turns each part
// into a nested table, and destroying a tree that is thousands of tables deep would overflow the
// stack. The scan counts the dots of every run of characters that could be one key; two adjacent
// dots cannot be part of a key.
int line_of_deep_key(const std::string& text) {
  int line = 1;
  int dots = 0;
  bool after_dot = false;
  for (const char c : text) {
    if (c == '\n') ++line;
    if (c == '.') {
      dots = after_dot ? 0 : dots + 1;
      if (dots > kMostDots) return line;
    } else if (std::string_view("\n,=[]{}#").find(c) != std::string_view::npos) {
      dots = 0;
    }
    if (c != ' ' && c != '\t') after_dot = c == '.';
  }
  return 0;
}

std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t change = diagonal + (a[i - 1] == b[j - 1] ? 0U : 1U);
      diagonal = row[j];
      row[j] = std::min({row[j] + 1, row[j - 1] + 1, change});
    }
  }
  return row[b.size()];
}

std::string unknown_key_text(const std::string& key, const std::set<std::string>& known) {
  std::string text = "unknown key";
  std::size_t nearest = std::max<std::size_t>(2, key.size() / 3) + 1;
  const std::string* suggestion = nullptr;
  for (const std::string& other : known) {
    if (key.size() > 64) break;
    const std::size_t distance = edit_distance(key, other);
    if (distance < nearest && distance < other.size()) {
      nearest = distance;
      suggestion = &other;
    }
  }
  if (suggestion != nullptr) text += "; did you mean " + *suggestion + "?";
  if (known.empty()) return text + "; no key is known here";
  text += suggestion != nullptr ? " Known here: " : "; known here: ";
  bool first = true;
  for (const std::string& other : known) {
    text += (first ? "" : ", ") + other;
    first = false;
  }
  return text;
}

std::string one_line(std::string text) {
  std::replace_if(
      text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < 32; }, ' ');
  return text;
}
}  // namespace

toml::table parse_toml(const std::string& text, const std::string& file) {
  if (const int line = line_of_deep_key(text); line > 0) {
    throw InputError(Fault{file, line, "", "a key with more than 64 dots", ""});
  }
  try {
    return toml::parse(std::string_view(text), std::string_view(file));
  } catch (const toml::parse_error& error) {
    const int line = static_cast<int>(error.source().begin.line);
    throw InputError(Fault{file, line, "", "not TOML: " + std::string(error.description()), ""});
  }
}

std::string CaseNode::State::read(const std::string& path, std::size_t most_bytes) const {
  return files ? files->text_of(path, most_bytes) : read_file(path, most_bytes);
}

const toml::source_region& CaseNode::State::source_of(const toml::node& node) const {
  if (node.source().begin.line > 0) return node.source();
  const auto found = origins.find(&node);
  return found == origins.end() ? node.source() : found->second->source();
}

// A copy has the same shape as its original, so that the two are walked side by side.
void CaseNode::State::track(const toml::node& original, const toml::node& copy) {
  origins[&copy] = &original;
  if (const toml::table* table = original.as_table()) {
    auto place = copy.as_table()->begin();
    for (const auto& [key, value] : *table) track(value, (place++)->second);
  } else if (const toml::array* array = original.as_array()) {
    for (std::size_t i = 0; i < array->size(); ++i) {
      track(*array->get(i), *copy.as_array()->get(i));
    }
  }
}

int CaseNode::State::add_document(const std::string& file, std::string text, int parent) {
  auto document = std::make_unique<Document>();
  document->file = file;
  document->table = parse_toml(text, file);
  document->text = std::move(text);
  document->parent = parent;
  documents.push_back(std::move(document));
  return static_cast<int>(documents.size()) - 1;
}

void CaseNode::State::record(int document, Fault fault) {
  if (recorded.size() >= kMostFaults) {
    ++dropped;
    return;
  }
  constexpr std::size_t kLongestField = 200;
  if (fault.field.size() > kLongestField)
    fault.field = fault.field.substr(0, kLongestField) + "...";
  fault.field = one_line(std::move(fault.field));  // quoted keys and strings may hold line breaks
  fault.got = one_line(std::move(fault.got));
  recorded.push_back({document, std::move(fault)});
}

void CaseNode::State::record_unknown_keys() {
  for (const auto& [pointer, own] : known) {
    const auto* table = static_cast<const toml::table*>(pointer);
    const std::string& document = documents[static_cast<std::size_t>(own.document)]->file;
    for (const auto& [key, value] : *table) {
      const std::string name(key.str());
      if (own.keys.count(name) > 0) continue;
      const std::string field = own.path.empty() ? name : own.path + "." + name;
      const int line = static_cast<int>(key.source().begin.line);
      const std::string& file = file_at(key.source(), document);
      if (recorded.size() >= kMostFaults) {
        ++dropped;
        continue;
      }
      record(own.document, {file, line, field, unknown_key_text(name, own.keys), ""});
    }
  }
}

CaseFile::CaseFile(const std::string& file) : CaseFile(read_file(file, kMostCaseBytes), file) {}

CaseFile::CaseFile(const std::string& text, const std::string& file)
    : state_(std::make_shared<CaseNode::State>()) {
  state_->add_document(file, text, -1);
}

CaseNode CaseFile::root() const {
  CaseNode node;
  node.state_ = state_;
  node.table_ = &state_->documents[0]->table;
  node.anchor_line_ = 0;
  state_->known.try_emplace(node.table_);
  return node;
}

std::string CaseFile::text() const {
  std::string text = state_->documents[0]->text;
  for (std::size_t i = 1; i < state_->documents.size(); ++i) {
    if (!text.empty() && text.back() != '\n') text += '\n';
    text += "# included file: " + one_line(state_->documents[i]->file) + "\n";
    text += state_->documents[i]->text;
  }
  return text;
}

void CaseFile::fault(Fault fault) {
  const auto& documents = state_->documents;
  const auto found = std::find_if(documents.begin(), documents.end(), [&fault](const auto& d) {
    return d->file == fault.file;
  });
  state_->record(static_cast<int>(found - documents.begin()), std::move(fault));
}

void CaseFile::finish() {
  state_->record_unknown_keys();
  auto& recorded = state_->recorded;
  if (recorded.empty()) return;
  // The message breaks ties, because tables are kept in an unordered map.
  std::stable_sort(recorded.begin(), recorded.end(), [](const auto& a, const auto& b) {
    return std::tie(a.document, a.fault.file, a.fault.line, a.fault.field, a.fault.got) <
           std::tie(b.document, b.fault.file, b.fault.line, b.fault.field, b.fault.got);
  });
  std::vector<Fault> faults;
  for (const auto& entry : recorded) {
    if (!faults.empty() && faults.back().message() == entry.fault.message()) continue;
    faults.push_back(entry.fault);
  }
  if (state_->dropped > 0) {
    const std::string more = std::to_string(state_->dropped) + " more faults, not listed";
    faults.push_back({state_->documents[0]->file, 0, "", more, ""});
  }
  throw InputError(std::move(faults));
}
}  // namespace ovendays::base
