// SPDX-License-Identifier: GPL-3.0-or-later
//
// Any text, read as a catalogue's table: refused with an InputError, or its good rows are models
// that are written as a table and read again the same.
#include <cstdint>
#include <string_view>

#include "base/check.h"
#include "design/catalogue_table.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace belvedere;
  design::CsvCatalogue csv;
  try {
    csv = design::readCatalogueCsv({reinterpret_cast<const char*>(data), size});
  } catch (const InputError& error) {
    BELVEDERE_CHECK(!error.problems().empty(), "a refusal says why");
    return 0;
  }
  for (const Problem& p : csv.problems)
    BELVEDERE_CHECK(!p.code.empty() && !p.where.empty(), "a problem says what and where");
  if (csv.models.empty()) return 0;
  const design::CsvCatalogue again = design::readCatalogueCsv(design::catalogueCsv(csv.models));
  BELVEDERE_CHECK(again.problems.empty() && again.models == csv.models,
                  "what is written reads back the same");
  return 0;
}
