// SPDX-License-Identifier: GPL-3.0-or-later
//
// Any text, read as a catalogue file: refused with an InputError, or its models read, write and
// read again the same, and each lens that passed the checks can be made.
#include <cstdint>
#include <string_view>

#include "base/check.h"
#include "design/resolve.h"
#include "design/write.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace belvedere;
  std::vector<design::Model> models;
  try {
    models = design::readCatalogueText({reinterpret_cast<const char*>(data), size});
  } catch (const InputError& error) {
    BELVEDERE_CHECK(!error.problems().empty(), "a refusal says why");
    return 0;
  }
  BELVEDERE_CHECK(design::readCatalogueText(design::writeCatalogue("", models)) == models,
                  "what is written reads back the same");
  for (const design::Model& model : models)
    for (const design::ModelImager& imager : model.imagers) design::lensAt(imager, {});
  return 0;
}
