// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "ovendays/season/season.h"

namespace ovendays::season {
namespace {

AuditTotal audit_of(const heat::RunSummary& run) {
  // A share of next to nothing says nothing about the integrator.
  constexpr double kLeastEnergy_J = 1e5;
  const double residual_J = std::abs(run.audit.residual_J());
  return {.worst_share = run.audit.in_J > kLeastEnergy_J ? residual_J / run.audit.in_J : 0.0,
          .in_J = run.audit.in_J,
          .out_J = run.audit.out_J,
          .stored_J = run.audit.stored_J,
          .residual_J = residual_J,
          .runs = 1,
          .steps = run.steps,
          .rejected = run.rejected};
}
}  // namespace

AuditTotal& AuditTotal::operator+=(const AuditTotal& other) {
  worst_share = std::max(worst_share, other.worst_share);
  in_J += other.in_J;
  out_J += other.out_J;
  stored_J += other.stored_J;
  residual_J += other.residual_J;
  runs += other.runs;
  steps += other.steps;
  rejected += other.rejected;
  return *this;
}

AuditTotal& AuditTotal::operator+=(const heat::RunSummary& run) { return *this += audit_of(run); }
}  // namespace ovendays::season
