// SPDX-License-Identifier: GPL-3.0-or-later
//
// Previews of a design that changes under a hand: keeps scenes, questions and lattices from look to
// look, and throws away only what an edit touched. Used by the evaluator's thread alone; no Qt.
#pragma once

#include <filesystem>
#include <list>
#include <memory>
#include <optional>
#include <string>

#include "design/design.h"
#include "drawing/sheet.h"
#include "proof/preview.h"

namespace belvedere::desk {

class LiveLooks {
 public:
  // The design that is looked at from now on. Scenes are built again when what stands in the site
  // changed; when one housing changed, only its views are posed again.
  void setDesign(std::shared_ptr<const design::Design> design, const std::filesystem::path& folder);
  const design::Design& design() const { return *design_; }

  std::shared_ptr<const proof::PreviewPlace> placeOf(const design::Situation& situation);
  // Null when the requirement's zone does not stand in the situation, or nothing is to be seen.
  const proof::Question* questionOf(const design::Requirement& requirement,
                                    const design::Situation& situation);
  std::optional<proof::Preview> look(const design::Requirement& requirement,
                                     const design::Situation& situation, double budget_ms,
                                     const Progress& progress);
  // What one aim of an imager serves of it, alone, from spots so far apart.
  struct Outline {
    drawing::ImagerOutline outline;
    double spacing_m = 0;
  };
  std::optional<Outline> outlineOf(const design::Requirement& requirement,
                                   const design::Situation& situation, const std::string& imager,
                                   std::size_t aim, double budget_ms, const Progress& progress);
  void clear();

 private:
  struct Looker {
    design::Requirement requirement;  // the question points to this one: a list keeps it in place
    design::SituationId situation;
    std::string imager;               // alone; empty: all
    std::size_t aim = 0;              // of that imager
    std::shared_ptr<const design::Design> design;  // that the question is of
    proof::Question question;
    proof::Previewer previewer;
  };
  struct KnownPlace {
    design::Situation situation;
    std::shared_ptr<const proof::PreviewPlace> place;
  };
  Looker* lookerOf(const design::Requirement& requirement, const design::Situation& situation,
                   const std::string& imager, std::size_t aim = 0);
  bool bringUpToDate(Looker& looker);

  std::shared_ptr<const design::Design> design_;
  std::filesystem::path folder_;
  std::list<KnownPlace> places_;
  std::list<Looker> lookers_;
};

}  // namespace belvedere::desk
