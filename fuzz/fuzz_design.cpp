// SPDX-License-Identifier: GPL-3.0-or-later
//
// Any text, read as a design: it is refused with an InputError, or it reads, writes and reads
// again to the same design, from its own source and from nothing. Attachments are not found: the
// folder does not exist.
#include <cstdint>
#include <string_view>

#include "base/check.h"
#include "design/resolve.h"
#include "design/write.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace belvedere;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  design::DesignFile file;
  try {
    file = design::readDesignText(text, "/no/such/folder");
  } catch (const InputError& error) {
    BELVEDERE_CHECK(!error.problems().empty(), "a refusal says why");
    for (const Problem& p : error.problems())
      BELVEDERE_CHECK(!p.code.empty() && !p.what.empty(), "a problem says what it is");
    return 0;
  }
  const std::string written = design::writeDesign(file);
  const design::DesignFile again = design::readDesignText(written, "/no/such/folder");
  BELVEDERE_CHECK(again.design == file.design, "what is written reads back the same");
  BELVEDERE_CHECK(design::writeDesign(again) == written, "canonical text comes back as it is");
  file.source = nullptr;
  BELVEDERE_CHECK(
      design::readDesignText(design::writeDesign(file), "/no/such/folder").design == file.design,
      "a design without a source reads back the same");
  // A checked design resolves.
  design::posedImagers(file.design, design::JudgedOn::recorded);
  return 0;
}
