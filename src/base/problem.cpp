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
std::size_t editDistance(const std::string& a, const std::string& b) {
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t above = row[j];
      row[j] = std::min({row[j] + 1, row[j - 1] + 1, diagonal + (a[i - 1] == b[j - 1] ? 0 : 1)});
      diagonal = above;
    }
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

}  // namespace belvedere
