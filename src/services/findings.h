// SPDX-License-Identifier: GPL-3.0-or-later
//
// What sizes have to be told about: each finding with a code that docs/findings.md explains.
// Computes nothing new. A part of which the design says nothing at all is not found fault with:
// without links there is no network to judge, without devices no recorder.
#pragma once

#include <string>
#include <vector>

#include "base/finding.h"
#include "services/size.h"

namespace belvedere::services {

// All of them, in the order of the sections: streams, network, power, recording, analytics,
// surroundings, bill.
std::vector<Finding> findingsOf(const design::Design& design, const Sizes& sizes, const Seen& seen);

// The parts.
std::vector<Finding> streamFindings(const design::Design& design, const Sizes& sizes,
                                    const Seen& seen);
std::vector<Finding> networkFindings(const design::Design& design, const Sizes& sizes);
std::vector<Finding> powerFindings(const design::Design& design, const Sizes& sizes);
std::vector<Finding> recordingFindings(const design::Design& design, const Sizes& sizes);
std::vector<Finding> analyticsFindings(const Sizes& sizes);
std::vector<Finding> surroundingsFindings(const design::Design& design, const Sizes& sizes);
std::vector<Finding> billFindings(const Sizes& sizes);

// "at least 1234.50 EUR of material; 2 items without a price".
std::string totalText(const Bill& bill);
// "1234.50 EUR"
std::string amountText(double amount, const std::string& money);

}  // namespace belvedere::services
