// SPDX-License-Identifier: GPL-3.0-or-later
//
// Schedules as files: each as CSV (RFC 4180, UTF-8), and all of them as the sheets of one XLSX workbook.
// Whatever a title says, it is text: nothing that a spreadsheet would take for a formula goes out as
// one. The same schedules give the same bytes.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "services/schedules.h"

namespace belvedere::services {

std::string scheduleCsv(const Schedule& schedule);

// The files that writeSchedules makes in a folder: cameras.csv, ..., schedules.xlsx.
std::vector<std::filesystem::path> scheduleFiles(const std::vector<Schedule>& schedules,
                                                 const std::filesystem::path& folder);
// Writes them, replacing what is there. Throws std::system_error whose text begins with the file.
void writeSchedules(const std::vector<Schedule>& schedules, const std::string& title,
                    const std::filesystem::path& folder);

}  // namespace belvedere::services
