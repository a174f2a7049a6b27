// SPDX-License-Identifier: Apache-2.0
#include "electrical/symmetric_factor.hpp"

#include <Eigen/OrderingMethods>
#include <algorithm>
#include <cmath>

namespace duskwire::electrical {

struct FactorPlan {
  std::vector<int> outer;  // the pattern that it is of
  std::vector<int> inner;
  std::vector<int> place;  // in the elimination order, by unknown
  // Entries of each row of the reordered matrix left of its diagonal: column, and where the value stands.
  std::vector<int> row_begin;
  std::vector<int> row_column;
  std::vector<int> row_from;
  std::vector<int> diagonal_from;
  // Of L: by column the rows of its entries; by row its columns, rising.
  std::vector<int> column_begin;
  std::vector<int> column_row;
  std::vector<int> l_row_begin;
  std::vector<int> l_row_column;
};

namespace {

bool is_of(const FactorPlan& plan, const SparseMatrix& lower) {
  const auto n = static_cast<std::size_t>(lower.outerSize());
  const auto entries = static_cast<std::size_t>(lower.nonZeros());
  return plan.outer.size() == n + 1 && plan.inner.size() == entries &&
         std::equal(plan.outer.begin(), plan.outer.end(), lower.outerIndexPtr()) &&
         std::equal(plan.inner.begin(), plan.inner.end(), lower.innerIndexPtr());
}

void order(const SparseMatrix& lower, FactorPlan& plan) {
  const SparseMatrix whole = lower.selfadjointView<Eigen::Lower>();
  Eigen::PermutationMatrix<Eigen::Dynamic, Eigen::Dynamic, int> of_place;
  Eigen::AMDOrdering<int>()(whole, of_place);
  plan.place.resize(static_cast<std::size_t>(lower.outerSize()));
  for (int at = 0; at < lower.outerSize(); ++at) plan.place[static_cast<std::size_t>(of_place.indices()[at])] = at;
}

void lay_rows(const SparseMatrix& lower, FactorPlan& plan) {
  const int n = static_cast<int>(lower.outerSize());
  struct Entry {
    int row, column, from;
  };
  std::vector<Entry> entries;
  plan.diagonal_from.resize(static_cast<std::size_t>(n));
  for (int j = 0; j < n; ++j) {
    for (int at = plan.outer[static_cast<std::size_t>(j)]; at < plan.outer[static_cast<std::size_t>(j) + 1]; ++at) {
      const int p = plan.place[static_cast<std::size_t>(plan.inner[static_cast<std::size_t>(at)])];
      const int q = plan.place[static_cast<std::size_t>(j)];
      if (p == q) {
        plan.diagonal_from[static_cast<std::size_t>(p)] = at;
      } else {
        entries.push_back({std::max(p, q), std::min(p, q), at});
      }
    }
  }
  std::sort(entries.begin(), entries.end(),
            [](const Entry& x, const Entry& y) { return x.row != y.row ? x.row < y.row : x.column < y.column; });
  plan.row_begin.assign(static_cast<std::size_t>(n) + 1, 0);
  for (const Entry& entry : entries) {
    ++plan.row_begin[static_cast<std::size_t>(entry.row) + 1];
    plan.row_column.push_back(entry.column);
    plan.row_from.push_back(entry.from);
  }
  for (std::size_t k = 0; k < static_cast<std::size_t>(n); ++k) plan.row_begin[k + 1] += plan.row_begin[k];
}

// Row k of L holds the columns met on the way up the elimination tree from the entries of row k of the matrix.
void lay_factor(FactorPlan& plan) {
  const std::size_t n = plan.place.size();
  std::vector<int> parent(n, -1);
  std::vector<int> seen(n, -1);
  std::vector<int> count(n, 0);
  plan.l_row_begin.push_back(0);
  for (std::size_t k = 0; k < n; ++k) {
    const auto row = static_cast<int>(k);
    seen[k] = row;
    for (int at = plan.row_begin[k]; at < plan.row_begin[k + 1]; ++at) {
      for (auto i = static_cast<std::size_t>(plan.row_column[static_cast<std::size_t>(at)]); seen[i] != row;
           i = static_cast<std::size_t>(parent[i])) {
        if (parent[i] < 0) parent[i] = row;
        seen[i] = row;
        ++count[i];
        plan.l_row_column.push_back(static_cast<int>(i));
      }
    }
    std::sort(plan.l_row_column.begin() + plan.l_row_begin.back(), plan.l_row_column.end());
    plan.l_row_begin.push_back(static_cast<int>(plan.l_row_column.size()));
  }
  plan.column_begin.assign(n + 1, 0);
  for (std::size_t k = 0; k < n; ++k) plan.column_begin[k + 1] = plan.column_begin[k] + count[k];
  plan.column_row.resize(plan.l_row_column.size());
  std::vector<int> next(plan.column_begin.begin(), plan.column_begin.end() - 1);
  for (std::size_t k = 0; k < n; ++k) {
    for (int at = plan.l_row_begin[k]; at < plan.l_row_begin[k + 1]; ++at) {
      const auto column = static_cast<std::size_t>(plan.l_row_column[static_cast<std::size_t>(at)]);
      plan.column_row[static_cast<std::size_t>(next[column]++)] = static_cast<int>(k);
    }
  }
}

std::shared_ptr<const FactorPlan> make_plan(const SparseMatrix& lower) {
  auto plan = std::make_shared<FactorPlan>();
  plan->outer.assign(lower.outerIndexPtr(), lower.outerIndexPtr() + lower.outerSize() + 1);
  plan->inner.assign(lower.innerIndexPtr(), lower.innerIndexPtr() + lower.nonZeros());
  order(lower, *plan);
  lay_rows(lower, *plan);
  lay_factor(*plan);
  return plan;
}

}  // namespace

// The same pattern comes again and again: the faults of one network mostly change its numbers. A plan follows from the
// pattern alone, so that it is no matter who made it.
void SymmetricFactor::analyse(const SparseMatrix& lower) {
  constexpr std::size_t most = 8;
  thread_local std::vector<std::shared_ptr<const FactorPlan>> recent;  // the latest first
  auto found = std::find_if(recent.begin(), recent.end(), [&](const auto& plan) { return is_of(*plan, lower); });
  if (found == recent.end()) {
    if (recent.size() == most) recent.pop_back();
    found = recent.insert(recent.end(), make_plan(lower));
  }
  std::rotate(recent.begin(), found, found + 1);
  plan_ = recent.front();
  const auto n = static_cast<Eigen::Index>(plan_->place.size());
  l_.assign(plan_->column_row.size(), 0.0);
  filled_.assign(plan_->place.size(), 0);
  pivot_ = work_ = Eigen::VectorXd::Zero(n);
}

bool SymmetricFactor::factorise(const SparseMatrix& lower) {
  const FactorPlan& plan = *plan_;
  const int n = static_cast<int>(plan.place.size());
  const int* row_begin = plan.row_begin.data();
  const int* row_column = plan.row_column.data();
  const int* row_from = plan.row_from.data();
  const int* l_row_begin = plan.l_row_begin.data();
  const int* l_row_column = plan.l_row_column.data();
  const int* column_begin = plan.column_begin.data();
  const int* column_row = plan.column_row.data();
  const double* value = lower.valuePtr();
  double* y = work_.data();
  double* pivot = pivot_.data();
  double* l = l_.data();
  int* filled = filled_.data();
  std::copy(column_begin, column_begin + n, filled);
  std::fill(y, y + n, 0.0);
  for (int k = 0; k < n; ++k) {
    for (int at = row_begin[k]; at < row_begin[k + 1]; ++at) y[row_column[at]] = value[row_from[at]];
    double left = value[plan.diagonal_from.data()[k]];
    for (int at = l_row_begin[k]; at < l_row_begin[k + 1]; ++at) {
      const int i = l_row_column[at];
      const double y_i = y[i];
      y[i] = 0;
      int entry = column_begin[i];
      for (; entry < filled[i]; ++entry) y[column_row[entry]] -= l[entry] * y_i;
      l[entry] = y_i / pivot[i];
      left -= l[entry] * y_i;
      filled[i] = entry + 1;
    }
    if (left == 0 || !std::isfinite(left)) return false;
    pivot[k] = left;
  }
  return true;
}

void SymmetricFactor::solve(const Eigen::VectorXd& rhs, Eigen::Ref<Eigen::VectorXd> x) {
  const int n = static_cast<int>(plan_->place.size());
  const int* place = plan_->place.data();
  const int* column_begin = plan_->column_begin.data();
  const int* column_row = plan_->column_row.data();
  double* y = work_.data();
  const double* l = l_.data();
  for (int k = 0; k < n; ++k) y[place[k]] = rhs[k];
  for (int k = 0; k < n; ++k) {
    const double y_k = y[k];
    for (int at = column_begin[k]; at < column_begin[k + 1]; ++at) y[column_row[at]] -= l[at] * y_k;
  }
  for (int k = n; k-- > 0;) {
    double y_k = y[k] / pivot_[k];
    for (int at = column_begin[k]; at < column_begin[k + 1]; ++at) y_k -= l[at] * y[column_row[at]];
    y[k] = y_k;
  }
  for (int k = 0; k < n; ++k) x[k] = y[place[k]];
}

}  // namespace duskwire::electrical
