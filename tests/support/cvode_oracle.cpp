// SPDX-License-Identifier: MIT
#include "cvode_oracle.h"

#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sundials/sundials_context.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

#include <algorithm>
#include <stdexcept>
#include <string>

namespace ovendays::test {
namespace {
/// Where the drying slows down [%] (kFallingRate_percent of the kernel), and where it ends.
constexpr double kDryingKinks[] = {30.0, 0.0};

void require(int flag, const char* what) {
  if (flag < 0) throw std::runtime_error(std::string(what) + " failed: " + std::to_string(flag));
}
}  // namespace

struct CvodeOracle::Solver {
  Solver(const heat::HeatModel& heat_model,
         const heat::Run& heat_run,
         std::vector<Level> watched,
         const OracleOptions& options)
      : model(heat_model),
        run(heat_run),
        levels(std::move(watched)),
        equations(heat_model, heat_run, options.joins) {
    if (model.drying() && options.stop_at_bends) {
      kinks.push_back({heat::kNodeFood, model.boiling_K});
      for (const double left : kDryingKinks) kinks.push_back({heat::kNodeWater, left});
    }
    risen.resize(levels.size());
    state = run.state;
    time_s = run.start_s;
    require(SUNContext_Create(nullptr, &context), "SUNContext_Create");
    const auto size = static_cast<sunindextype>(equations.nodes().size());
    y = N_VNew_Serial(size, context);
    matrix = SUNDenseMatrix(size, size, context);
    linear = SUNLinSol_Dense(y, matrix, context);
    cvode = CVodeCreate(CV_BDF, context);
    if (y == nullptr || matrix == nullptr || linear == nullptr || cvode == nullptr)
      throw std::runtime_error("CVODE could not be set up");
    equations.pack(state, NV_DATA_S(y));
    require(CVodeInit(cvode, slope, time_s, y), "CVodeInit");
    require(CVodeSStolerances(cvode, options.relative, options.absolute), "CVodeSStolerances");
    require(CVodeSetUserData(cvode, this), "CVodeSetUserData");
    require(CVodeSetLinearSolver(cvode, linear, matrix), "CVodeSetLinearSolver");
    require(CVodeSetMaxNumSteps(cvode, 1000000), "CVodeSetMaxNumSteps");
    const auto roots = static_cast<int>(kinks.size() + levels.size());
    if (roots > 0) require(CVodeRootInit(cvode, roots, distance), "CVodeRootInit");
    enter_stretch();
  }
  Solver(const Solver&) = delete;
  Solver& operator=(const Solver&) = delete;
  ~Solver() {
    CVodeFree(&cvode);
    SUNLinSolFree(linear);
    SUNMatDestroy(matrix);
    N_VDestroy(y);
    SUNContext_Free(&context);
  }

  /// From the present time to the next at which anything jumps or bends.
  void enter_stretch() {
    equations.enter(time_s);
    restart();
  }

  [[nodiscard]] long steps_since_restart() const {
    long count = 0;
    require(CVodeGetNumSteps(cvode, &count), "CVodeGetNumSteps");
    return count;
  }

  void restart() {
    steps += steps_since_restart();
    require(CVodeReInit(cvode, time_s, y), "CVodeReInit");
    require(CVodeSetStopTime(cvode, equations.cut_s()), "CVodeSetStopTime");
  }

  void advance(double target_s) {
    while (target_s - time_s > kSameTime_s) {
      const double cut_s = equations.cut_s();
      if (cut_s - time_s <= kSameTime_s) {
        time_s = cut_s;
        if (cut_s >= run.end_s - kSameTime_s) return;
        enter_stretch();
        continue;
      }
      double reached_s = time_s;
      const int flag = CVode(cvode, std::min(target_s, cut_s), y, &reached_s, CV_NORMAL);
      require(flag, "CVode");
      time_s = reached_s;
      if (flag == CV_ROOT_RETURN) note_roots();
    }
  }

  void note_roots() {
    std::vector<int> found(kinks.size() + levels.size());
    require(CVodeGetRootInfo(cvode, found.data()), "CVodeGetRootInfo");
    bool bent = false;
    for (std::size_t i = 0; i < found.size(); ++i) {
      if (found[i] == 0) continue;
      if (i < kinks.size()) {
        bent = true;
      } else if (found[i] > 0 && !risen[i - kinks.size()]) {
        risen[i - kinks.size()] = time_s;
      }
    }
    if (bent) restart();
  }

  static int slope(realtype time_s, N_Vector y, N_Vector rate, void* self) {
    auto& s = *static_cast<Solver*>(self);
    s.equations.slope(time_s, NV_DATA_S(y), NV_DATA_S(rate));
    return 0;
  }

  static int distance(realtype, N_Vector y, realtype* out, void* self) {
    auto& s = *static_cast<Solver*>(self);
    s.equations.unpack(NV_DATA_S(y), s.trial);
    for (const auto* list : {&s.kinks, &s.levels}) {
      for (const Level& level : *list)
        *out++ = s.trial[static_cast<std::size_t>(level.node)] - level.level_K;
    }
    return 0;
  }

  const heat::HeatModel& model;
  heat::Run run;
  std::vector<Level> levels, kinks;
  DrivenEquations equations;
  std::vector<std::optional<double>> risen;
  heat::State state{};
  heat::State trial = heat::uniform_state(300.0);
  double time_s = 0.0;
  long steps = 0;  ///< before the last restart
  SUNContext context = nullptr;
  N_Vector y = nullptr;
  SUNMatrix matrix = nullptr;
  SUNLinearSolver linear = nullptr;
  void* cvode = nullptr;
};

CvodeOracle::CvodeOracle(const heat::HeatModel& model,
                         const heat::Run& run,
                         std::vector<Level> levels,
                         const OracleOptions& options)
    : solver_(std::make_unique<Solver>(model, run, std::move(levels), options)) {}
CvodeOracle::~CvodeOracle() = default;

const heat::State& CvodeOracle::at(double time_s) {
  solver_->advance(time_s);
  solver_->equations.unpack(NV_DATA_S(solver_->y), solver_->state);
  return solver_->state;
}

std::optional<double> CvodeOracle::risen_s(std::size_t level) const {
  return solver_->risen.at(level);
}

long CvodeOracle::steps() const { return solver_->steps + solver_->steps_since_restart(); }
}  // namespace ovendays::test
