// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "services/findings.h"

namespace belvedere::services {

std::string amountText(double amount, const std::string& money) {
  return money.empty() ? fmt::format("{:.2f}", amount) : fmt::format("{:.2f} {}", amount, money);
}

std::string totalText(const Bill& bill) {
  std::string text = fmt::format("{}{} of material", bill.complete() ? "" : "at least ",
                                 amountText(bill.total, bill.money));
  if (bill.unpriced > 0)
    text += fmt::format("; {} item{} without a price", bill.unpriced, bill.unpriced == 1 ? "" : "s");
  if (bill.lengths_unknown > 0)
    text += fmt::format("; {} cable{} without a length", bill.lengths_unknown,
                        bill.lengths_unknown == 1 ? "" : "s");
  return text;
}

std::vector<Finding> billFindings(const Sizes& sizes) {
  std::vector<Finding> out;
  const std::string unit = sizes.bill.money.empty() ? "money" : sizes.bill.money;
  for (const MoneyCheck& check : sizes.money) {
    const std::string id = check.requirement.text;
    if (check.met && !*check.met)
      out.push_back({"money_over", Severity::shortfall, {id}, Quantity{check.most, unit},
                     Quantity{sizes.bill.total, unit},
                     fmt::format("{}: {} where {} may be spent: {} too much.", id,
                                 totalText(sizes.bill), amountText(check.most, sizes.bill.money),
                                 amountText(sizes.bill.total - check.most, sizes.bill.money)),
                     "14"});
    else if (!check.met)
      out.push_back({"money_open", Severity::caution, {id}, Quantity{check.most, unit},
                     Quantity{sizes.bill.total, unit},
                     fmt::format("{}: {} where {} may be spent: what has no price decides.", id,
                                 totalText(sizes.bill), amountText(check.most, sizes.bill.money)),
                     "14"});
  }
  return out;
}

}  // namespace belvedere::services
