// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/problem.h"

#include <algorithm>
#include <numeric>

#include "base/check.h"

namespace belvedere {

InputError::InputError(std::vector<Problem> problems, std::string file)
    : problems_(std::move(problems)), file_(std::move(file)) {
  BELVEDERE_CHECK(!problems_.empty(), "an InputError carries at least one problem");
  for (const Problem& p : problems_) {
    if (!text_.empty()) text_ += '\n';
    text_ += (p.where.empty() ? file_ : p.where) + ": " + p.what;
    if (!p.hint.empty()) text_ += " (" + p.hint + ")";
  }
}

namespace {
// Letters to add, leave out, change, or swap with their neighbour (the commonest slip).
std::size_t editDistance(const std::string& a, const std::string& b) {
  std::vector<std::size_t> before(b.size() + 1), row(b.size() + 1), next(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 1; i <= a.size(); ++i) {
    next[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      next[j] = std::min({row[j] + 1, next[j - 1] + 1, row[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1)});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
        next[j] = std::min(next[j], before[j - 2] + 1);
    }
    std::swap(before, row);
    std::swap(row, next);
  }
  return row[b.size()];
}
}  // namespace

std::string nearestWord(const std::string& word, const std::vector<std::string>& known) {
  if (word.size() > 200) return {};
  std::string best;
  std::size_t best_distance = std::max<std::size_t>(1, word.size() / 3) + 1;
  for (const std::string& k : known) {
    const std::size_t d = editDistance(word, k);
    if (d < best_distance) {
      best_distance = d;
      best = k;
    }
  }
  return best;
}

std::vector<std::string> nearestFirst(const std::string& word, std::vector<std::string> known) {
  if (word.size() > 200) return known;
  std::vector<std::pair<std::size_t, std::string>> far;
  for (std::string& k : known) far.emplace_back(editDistance(word, k), std::move(k));
  std::stable_sort(far.begin(), far.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  for (std::size_t i = 0; i < far.size(); ++i) known[i] = std::move(far[i].second);
  return known;
}

}  // namespace belvedere
