// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/light_output.h"

#include <algorithm>
#include <cmath>

#include <nlohmann/json.hpp>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "base/units.h"
#include "base/trade_figures.h"
#include "cli/page.h"

namespace belvedere::cli {
namespace {

constexpr int kDaysOfALine = 7, kColumns = 48;  // of a year's chart

std::string luxText(double lux) { return lux >= 100 ? fmt::format("{:.0f}", lux) : fmt::format("{:.3g}", lux); }

std::string neededText(const light::NeededLight& needed) {
  if (needed.lux)
    return fmt::format("{} at {}, {}", luxText(*needed.lux), fNumberText(needed.f_number),
                       exposureText(needed.exposure_s));
  return needed.unknown == light::Unknown::f_number     ? "no F-number"
         : needed.unknown == light::Unknown::exposure_s ? "no exposure"
                                                        : "not stated";
}

// "f/1.6", or "f/4 of f/1.6" of a lens that is stopped down.
std::string apertureText(const design::PosedImager& view) {
  if (!view.f_number) return "-";
  const std::string set = fNumberText(*view.f_number);
  const bool stopped = view.widest_f_number && view.stoppedDown() > 1;
  return stopped ? set + " of " + fNumberText(*view.widest_f_number) : set;
}

const char* word(light::Mode mode) { return mode == light::Mode::mono ? "mono" : "colour"; }

const char* word(light::RatioClass ratio) {
  switch (ratio) {
    case light::RatioClass::wanted: return "as wanted";
    case light::RatioClass::good: return "good";
    case light::RatioClass::marginal: return "marginal";
    case light::RatioClass::worse: break;
  }
  return "worse than 8:1";
}

std::string followsText(const light::Lamp& lamp) {
  if (lamp.follows) return *lamp.follows == 0 ? "off" : fmt::format("imager {}", *lamp.follows);
  return lamp.alone ? "own cell" : "group";
}

// Left to itself between the levels of the switch, where an imager stays as it was.
bool staysAsItWas(const LitAnswer& situation, const proof::ImagerSees& sees) {
  constexpr light::DayNightSwitch levels;
  return situation.stated && sees.view.mode == design::ImagerMode::by_light &&
         sees.state.lux >= levels.to_mono_below_lux && sees.state.lux <= levels.to_colour_above_lux;
}

std::string imagersText(const LitAnswer& situation) {
  Table table;
  table.align = "lrlllrrr";
  table.head = {"imager", "meets lx", "mode", "needs lx", "aperture", "focus m", "sharp from m", "to m"};
  for (const proof::ImagerSees& sees : situation.imagers) {
    std::vector<std::string> row{printable(sees.view.name),
                                 situation.stated ? luxText(sees.state.lux) : "-",
                                 (situation.stated ? std::string(word(sees.state.mode)) : "-") +
                                     (staysAsItWas(situation, sees) ? "~" : ""),
                                 situation.stated ? neededText(sees.needed) : "-",
                                 apertureText(sees.view)};
    if (sees.focus) {
      row.push_back(fmt::format("{:.2f}{}", sees.focus->at_m, sees.focus->stated ? "" : "*"));
      const bool anywhere = std::isfinite(sees.focus->sharp.near_m);
      row.push_back(anywhere ? fmt::format("{:.2f}", sees.focus->sharp.near_m) : "nowhere");
      row.push_back(!anywhere                 ? "-"
                    : sees.focus->sharp.far_m ? fmt::format("{:.1f}", *sees.focus->sharp.far_m)
                                              : "no end");
    } else {
      row.insert(row.end(), {"-", "-", "-"});
    }
    table.rows.push_back(std::move(row));
  }
  return table.text(2);
}

std::string lampsText(const LitAnswer& situation) {
  Table table;
  table.align = "lllrrr";
  table.head = {"lamp", "follows", "burns", "range m", "beam deg", "nm"};
  for (std::size_t i = 0; i < situation.lamps.size(); ++i) {
    const light::Lamp& lamp = situation.lamps[i];
    table.rows.push_back({printable(lamp.name), followsText(lamp),
                          situation.burns[i] ? "yes" : "no", fmt::format("{:g}", lamp.range_m),
                          fmt::format("{:.0f}", radToDeg(2 * lamp.half_beam_rad)),
                          fmt::format("{:g}", lamp.wave_nm)});
  }
  return table.text(2);
}

std::string zonesText(const std::vector<proof::ZoneLight>& zones) {
  Table table;
  table.align = "lrrrrl";
  table.head = {"zone, on the floor", "least lx", "mean lx", "most lx", "most : least", ""};
  for (const proof::ZoneLight& zone : zones) {
    const bool dark = zone.evenness.most_lux <= 0;
    table.rows.push_back(
        {printable(zone.zone), luxText(zone.evenness.least_lux), luxText(zone.evenness.mean_lux),
         luxText(zone.evenness.most_lux),
         zone.evenness.ratio ? fmt::format("{:.1f}", *zone.evenness.ratio) : dark ? "-" : "no end",
         dark ? "dark" : word(light::ratioClass(zone.evenness))});
  }
  return table.text(2);
}

std::string idsText(const std::vector<design::RequirementId>& ids) {
  std::vector<std::string> words;
  for (const design::RequirementId& id : ids) words.push_back(printable(id.text));
  return words.empty() ? "none" : fmt::format("{}", fmt::join(words, ", "));
}

// Why one pairing alone was tried; empty where there was a choice: with two imagers in mono there always is one.
std::string onlyOne(const proof::LampPairing& pairing) {
  if (pairing.tried != 1) return "";
  return fmt::format("no other is possible: imager {} is the only one of {} that is in mono there, and lamps burn for "
                     "imagers in mono alone",
                     *pairing.lamps.front().follows, printable(pairing.housing.text));
}

std::string pairingText(const proof::LampPairing& pairing) {
  std::vector<std::string> pairs;
  for (const design::HousingLamp& lamp : pairing.lamps)
    pairs.push_back(fmt::format("lamp {} {}", lamp.slot,
                                *lamp.follows == 0 ? "off" : fmt::format("with imager {}", *lamp.follows)));
  const std::string only = onlyOne(pairing), why = only.empty() ? "" : " (" + only + ")";
  std::string text = fmt::format("{}: {}", printable(pairing.housing.text), fmt::join(pairs, ", "));
  if (!pairing.without.empty())
    text += pairing.without.size() == 1
                ? fmt::format("; imager {} goes without", pairing.without.front())
                : fmt::format("; imagers {} go without", fmt::join(pairing.without, ", "));
  text += fmt::format(". Then {} of {} requirements hold (as it is set: {}); short: {}. {} "
                      "tried on previews{}; prove the design with it.",
                      pairing.held.size(), pairing.held.size() + pairing.short_of.size(),
                      pairing.held_as_written, idsText(pairing.short_of),
                      pairing.tried == 1 ? "1 pairing" : fmt::format("{} pairings", pairing.tried), why);
  if (pairing.model_runs_together)
    text += " The model says that its lamps run together: ask whether they can follow imagers one by one.";
  return wrapped(text, 2, 4);
}

std::string firstSpellText(const light::SunYear& year, const light::SunChart& chart) {
  if (chart.spells.empty()) return "never";
  const light::SunSpell& spell = chart.spells.front();
  return fmt::format("{} to {}, {} to {}", light::dateOf(year, spell.first_day),
                     light::dateOf(year, spell.last_day), clockText(spell.from_h),
                     clockText(spell.to_h));
}

std::string sunText(const Sun& sun) {
  Table table;
  table.align = "lrrrl";
  table.head = {"imager", "in frame h", "within 10 deg h", "hidden h", "first spell"};
  for (const proof::SunOfImager& of : sun.of)
    table.rows.push_back({printable(of.view.name), fmt::format("{:.1f}", of.chart.in_frame_h),
                          fmt::format("{:.1f}", of.chart.near_h),
                          fmt::format("{:.1f}", of.chart.hidden_h),
                          firstSpellText(sun.year, of.chart)});
  std::string text = table.text(2);
  if (sun.backlights.empty()) return text;
  const light::Backlight limits;
  Table behind;
  behind.align = "llrrl";
  behind.head = {"faces of", "for", "sun behind h", "hidden h", "first spell"};
  for (const proof::BacklightOf& of : sun.backlights)
    behind.rows.push_back({printable(of.requirement.text) +
                               (of.situation == sun.situation.id ? "" : fmt::format(" (in {})", printable(of.situation.text))),
                           printable(of.imager),
                           fmt::format("{:.1f}", of.chart.near_h),
                           fmt::format("{:.1f}", of.chart.hidden_h),
                           firstSpellText(sun.year, of.chart)});
  return text + "\n" + behind.text(2) +
         wrapped(fmt::format("Behind: at most {:g} deg high and {:g} deg beside the line from the lens "
                             "through the middle of the zone carried on, and shining on the face's back "
                             "there.", limits.low_deg, limits.beside_deg), 2, 2);
}

// A line a week, a column half an hour: the worst that falls into it. `says`: what the marks mean.
std::string chartText(const light::SunYear& year, const light::SunChart& chart, const char* says) {
  std::string text = fmt::format("  {:10}  0     3     6     9     12    15    18    21\n", "week of");
  const int steps_of_column = std::max(1, year.steps_per_day / kColumns);
  for (int day = 0; day < year.days; day += kDaysOfALine) {
    std::string line(kColumns, ' ');
    for (int d = day; d < std::min(day + kDaysOfALine, year.days); ++d)
      for (int step = 0; step < year.steps_per_day; ++step) {
        const light::SunState state = chart.state[year.at(d, step)];
        const char mark = state == light::SunState::in_frame  ? '#'
                          : state == light::SunState::near    ? '+'
                          : state == light::SunState::hidden  ? '-'
                          : state == light::SunState::elsewhere ? '.'
                                                                : ' ';
        constexpr std::string_view kRising = " .-+#";
        char& at = line[static_cast<std::size_t>(std::min(step / steps_of_column, kColumns - 1))];
        if (kRising.find(mark) > kRising.find(at)) at = mark;
      }
    text += fmt::format("  {:10}  {}\n", light::dateOf(year, day), line);
  }
  return text + "  " + says + "; the worst of each week\n";
}

}  // namespace

std::string lightText(const Loaded& loaded, const LightAnswer& answer) {
  std::string text = wrapped(printable(loaded.design.title), 0, 0);
  for (const LitAnswer& situation : answer.situations) {
    text += heading(fmt::format(
        "{}: {}", printable(situation.id),
        situation.stated ? fmt::format("{} lx all about, {} luminaires", luxText(situation.ambient_lux),
                                       situation.luminaires)
                         : "names no lights, taken to be lit well enough"));
    text += imagersText(situation);
    if (!situation.lamps.empty()) text += "\n" + lampsText(situation);
    if (!situation.zones.empty()) text += "\n" + zonesText(situation.zones);
    for (const proof::LampPairing& pairing : situation.pairings) text += pairingText(pairing);
  }
  const bool stays = std::ranges::any_of(answer.situations, [](const LitAnswer& situation) {
    return std::ranges::any_of(situation.imagers, [&](const proof::ImagerSees& s) { return staysAsItWas(situation, s); });
  });
  if (stays) {
    constexpr light::DayNightSwitch levels;
    text += wrapped(fmt::format("~ from {:g} to {:g} lx an imager stays as it was; here it comes from daylight. In "
                                "the morning it is in mono still.",
                                levels.to_mono_below_lux, levels.to_colour_above_lux), 2, 4);
  }
  const bool chosen = std::any_of(
      answer.situations.begin(), answer.situations.end(), [](const LitAnswer& situation) {
        return std::any_of(situation.imagers.begin(), situation.imagers.end(),
                           [](const proof::ImagerSees& s) { return s.focus && !s.focus->stated; });
      });
  if (chosen)
    text += wrapped("* focus chosen so that what the imager can serve is sharpest as a whole; set the lens "
                    "to it and write it into the aim.", 2, 4);
  if (answer.sun) {
    text += heading(fmt::format("Sun in {}, hours of the year, clock at UTC{:+g}",
                                answer.sun->year.year, answer.sun->year.utc_offset_h));
    text += sunText(*answer.sun);
    if (answer.sun->chart)
      for (const proof::SunOfImager& of : answer.sun->of) {
        text += heading(fmt::format("{}: week by hour, UTC{:+g}", printable(of.view.name),
                                    answer.sun->year.utc_offset_h));
        text += chartText(answer.sun->year, of.chart,
                          "# in the picture   + within 10 degrees   - hidden   . up elsewhere");
      }
    if (answer.sun->chart)
      for (const proof::BacklightOf& of : answer.sun->backlights) {
        text += heading(fmt::format("{} behind the faces of {}: week by hour, UTC{:+g}",
                                    printable(of.imager), printable(of.requirement.text),
                                    answer.sun->year.utc_offset_h));
        text += chartText(answer.sun->year, of.chart,
                          "+ low behind the faces   - hidden   . up elsewhere");
      }
  }
  text += heading("Findings") + findingsText(answer.findings);
  text += "\nThis is a computed aid: walk-test at the worst light before anybody relies on it.\n"
          "Local codes and licensed practice come first.\n";
  return text;
}

Json lightJson(const Loaded& loaded, const LightAnswer& answer) {
  const auto optional = [](const std::optional<double>& value) {
    return value ? number(*value) : Json();
  };
  Json situations = Json::array();
  for (const LitAnswer& situation : answer.situations) {
    Json imagers = Json::array(), lamps = Json::array(), zones = Json::array(),
         pairings = Json::array();
    for (const proof::ImagerSees& sees : situation.imagers) {
      Json one{{"imager", sees.view.name}};
      if (situation.stated) {
        one["lux"] = number(sees.state.lux);
        one["mode"] = word(sees.state.mode);
        if (sees.needed.lux) one["needed_lux"] = number(*sees.needed.lux);
      }
      if (sees.view.f_number) one["f_number"] = number(*sees.view.f_number);
      if (sees.view.widest_f_number) one["widest_f_number"] = number(*sees.view.widest_f_number);
      if (sees.focus)
        one["focus"] = {{"at_m", number(sees.focus->at_m)},
                        {"stated", sees.focus->stated},
                        {"near_m", number(sees.focus->sharp.near_m)},
                        {"far_m", optional(sees.focus->sharp.far_m)}};
      imagers.push_back(std::move(one));
    }
    for (std::size_t i = 0; i < situation.lamps.size(); ++i) {
      const light::Lamp& lamp = situation.lamps[i];
      Json one{{"lamp", lamp.name},
               {"at_m", numbers(lamp.at_m)},
               {"axis", numbers(lamp.axis)},
               {"range_m", number(lamp.range_m)},
               {"wave_nm", number(lamp.wave_nm)},
               {"burns", static_cast<bool>(situation.burns[i])}};
      if (lamp.follows) one["follows"] = *lamp.follows;
      lamps.push_back(std::move(one));
    }
    for (const proof::ZoneLight& zone : situation.zones)
      zones.push_back({{"zone", zone.zone},
                       {"least_lux", number(zone.evenness.least_lux)},
                       {"mean_lux", number(zone.evenness.mean_lux)},
                       {"most_lux", number(zone.evenness.most_lux)}});
    for (const proof::LampPairing& pairing : situation.pairings) {
      Json pairs = Json::array(), held = Json::array(), short_of = Json::array();
      for (const design::HousingLamp& lamp : pairing.lamps)
        pairs.push_back({{"lamp", lamp.slot}, {"follows", *lamp.follows}});
      for (const auto& id : pairing.held) held.push_back(id.text);
      for (const auto& id : pairing.short_of) short_of.push_back(id.text);
      pairings.push_back({{"housing", pairing.housing.text},
                          {"lamps", std::move(pairs)},
                          {"without", pairing.without},
                          {"held", std::move(held)},
                          {"short", std::move(short_of)},
                          {"held_as_written", pairing.held_as_written},
                          {"tried", pairing.tried}});
      if (const std::string only = onlyOne(pairing); !only.empty()) pairings.back()["only"] = only;
      if (pairing.model_runs_together) pairings.back()["model_runs_together"] = true;
    }
    situations.push_back({{"situation", situation.id},
                          {"stated", situation.stated},
                          {"ambient_lux", number(situation.ambient_lux)},
                          {"imagers", std::move(imagers)},
                          {"lamps", std::move(lamps)},
                          {"zones", std::move(zones)},
                          {"pairings", std::move(pairings)}});
  }
  Json sun = Json::array(), behind = Json::array();
  const auto spellsOf = [&](const light::SunChart& chart) {
    Json spells = Json::array();
    for (const light::SunSpell& spell : chart.spells)
      spells.push_back({{"in_frame", spell.state == light::SunState::in_frame},
                        {"from", light::dateOf(answer.sun->year, spell.first_day)},
                        {"to", light::dateOf(answer.sun->year, spell.last_day)},
                        {"from_h", number(spell.from_h)},
                        {"to_h", number(spell.to_h)}});
    return spells;
  };
  if (answer.sun)
    for (const proof::BacklightOf& of : answer.sun->backlights)
      behind.push_back({{"requirement", of.requirement.text},
                        {"situation", of.situation.text},
                        {"imager", of.imager},
                        {"at_m", numbers(of.at_m)},
                        {"behind_h", number(of.chart.near_h)},
                        {"hidden_h", number(of.chart.hidden_h)},
                        {"spells", spellsOf(of.chart)}});
  if (answer.sun)
    for (const proof::SunOfImager& of : answer.sun->of)
      sun.push_back({{"imager", of.view.name},
                     {"year", answer.sun->year.year},
                     {"utc_offset_h", number(answer.sun->year.utc_offset_h)},
                     {"in_frame_h", number(of.chart.in_frame_h)},
                     {"near_h", number(of.chart.near_h)},
                     {"hidden_h", number(of.chart.hidden_h)},
                     {"spells", spellsOf(of.chart)}});
  return {{"format", "belvedere.light"},
          {"version", 1},
          {"design", designJson(loaded)},
          {"situations", std::move(situations)},
          {"sun", std::move(sun)},
          {"backlight", std::move(behind)},
          {"findings", findingsJson(answer.findings)}};
}

}  // namespace belvedere::cli
