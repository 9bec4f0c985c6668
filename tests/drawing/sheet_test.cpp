// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/sheet.h"

#include <gtest/gtest.h>

#include <QFile>
#include <QImage>
#include <QPainter>
#include <QTransform>
#include <QXmlStreamReader>

#include <cmath>
#include <set>

#include "drawing/sheet_parts.h"
#include "made_up.h"

namespace belvedere::drawing {
namespace {

namespace fs = std::filesystem;

// What a reader of the SVG meets: texts, and the boxes of its paths in mm on paper.
struct Svg {
  std::set<std::string> texts;
  std::vector<QRectF> paths;
  QString width, height;
  bool has(const std::string& text) const { return texts.contains(text); }
  bool hasPart(const std::string& part) const {
    for (const std::string& text : texts)
      if (text.find(part) != std::string::npos) return true;
    return false;
  }
  bool hasPath(double width_mm, double height_mm, double within_mm) const {
    for (const QRectF& box : paths)
      if (std::abs(box.width() - width_mm) <= within_mm &&
          std::abs(box.height() - height_mm) <= within_mm)
        return true;
    return false;
  }
};

QTransform transformOf(const QString& words) {
  const QStringList n = words.mid(words.indexOf('(') + 1).chopped(1).split(',');
  if (n.size() != 6) return {};
  return QTransform(n[0].toDouble(), n[1].toDouble(), n[2].toDouble(), n[3].toDouble(),
                    n[4].toDouble(), n[5].toDouble());
}

Svg readSvg(const fs::path& path) {
  Svg svg;
  QFile file(QString::fromStdString(path.string()));
  EXPECT_TRUE(file.open(QIODevice::ReadOnly));
  QXmlStreamReader xml(&file);
  std::vector<QTransform> frames{{}};
  double mm_per_unit = 0;
  while (!xml.atEnd()) {
    xml.readNext();
    const auto attribute = [&](const char* name) {
      return xml.attributes().value(QLatin1String(name)).toString();
    };
    if (xml.isStartElement() && xml.name() == QLatin1String("svg")) {
      svg.width = attribute("width");
      svg.height = attribute("height");
      mm_per_unit = svg.width.chopped(2).toDouble() / attribute("viewBox").split(' ')[2].toDouble();
    } else if (xml.isStartElement() && xml.name() == QLatin1String("g")) {
      const QString own = attribute("transform");
      frames.push_back(own.isEmpty() ? frames.back() : transformOf(own) * frames.back());
    } else if (xml.isEndElement() && xml.name() == QLatin1String("g")) {
      frames.pop_back();
    } else if (xml.isStartElement() && xml.name() == QLatin1String("path")) {
      QPolygonF points;
      for (const QString& word : attribute("d").split(' ', Qt::SkipEmptyParts)) {
        const QStringList xy = word.mid(word[0].isLetter() ? 1 : 0).split(',');
        if (xy.size() == 2) points << QPointF(xy[0].toDouble(), xy[1].toDouble());
      }
      const QRectF box = frames.back().map(points).boundingRect();
      svg.paths.emplace_back(box.topLeft() * mm_per_unit, box.size() * mm_per_unit);
    } else if (xml.isStartElement() && xml.name() == QLatin1String("text")) {
      svg.texts.insert(xml.readElementText().trimmed().toStdString());
    }
  }
  EXPECT_FALSE(xml.hasError()) << xml.errorString().toStdString();
  return svg;
}

std::string bytesOf(const fs::path& path) {
  QFile file(QString::fromStdString(path.string()));
  EXPECT_TRUE(file.open(QIODevice::ReadOnly));
  return file.readAll().toStdString();
}

class SheetTest : public testing::Test {
 protected:
  void SetUp() override {
    folder_ = fs::path(testing::TempDir()) /
              ("sheet_" + std::string(testing::UnitTest::GetInstance()->current_test_info()->name()));
    fs::create_directories(folder_);
  }
  void TearDown() override { fs::remove_all(folder_); }
  Svg drawn(const Sheet& sheet) {
    writeSvg(sheet, folder_ / "plan.svg");
    return readSvg(folder_ / "plan.svg");
  }
  fs::path folder_;
};

// Closed form: the zone of 10 x 5 m measures 100 x 50 mm at 1:100; the slab 200 x 140.
TEST_F(SheetTest, TenMetresMeasureAHundredMillimetresAtOneToAHundred) {
  const Sheet sheet = madeUpSheet();
  ASSERT_EQ(scaleOf(sheet), 100);
  const Svg svg = drawn(sheet);
  EXPECT_EQ(svg.width, "420mm");
  EXPECT_EQ(svg.height, "297mm");
  EXPECT_TRUE(svg.hasPath(100, 50, 0.02));
  EXPECT_TRUE(svg.hasPath(200, 140, 0.02));
  EXPECT_TRUE(svg.has("1:100"));
  EXPECT_TRUE(svg.has("1:100 on A3"));
}

// Property: the scale is the largest of the list that shows the whole storey.
TEST_F(SheetTest, ScaleFollowsTheSizeOfTheStorey) {
  Sheet sheet = madeUpSheet();
  design::Design design = sheet.design;
  design.site.buildings[0].storeys[0].outline = {{0, 0}, {160, 0}, {160, 20}, {0, 20}};
  sheet.design = design;
  EXPECT_EQ(scaleOf(sheet), 1000);
  design.site.buildings[0].storeys[0].outline = {{0, 0}, {150, 0}, {150, 20}, {0, 20}};
  sheet.design = design;
  EXPECT_EQ(scaleOf(sheet), 500);
}

// Property: the legend explains what the plan shows and nothing else.
TEST_F(SheetTest, LegendListsOnlyWhatOccurs) {
  Sheet sheet = madeUpSheet();
  Svg svg = drawn(sheet);
  for (const char* word : {"hidden", "too coarse", "blind zone", "worst spot", "px/m of a task",
                           "fields, axes, stops", "margin: found over needed density"})
    EXPECT_TRUE(svg.has(word)) << word;
  for (const char* word : {"out of frame", "too steep", "turned away", "unsharp", "too dark",
                           "masked", "overhead", "from above", "an imager serves", "fields, axes"})
    EXPECT_FALSE(svg.has(word)) << word;
  ZoneMap map = sheet.maps[0];
  for (proof::Spot& spot : map.spots.spots)
    if (spot.reason == proof::Reason::hidden) spot.reason = proof::Reason::masked;
  sheet.maps.set({map});
  svg = drawn(sheet);
  EXPECT_FALSE(svg.has("hidden"));
  EXPECT_TRUE(svg.has("masked"));
  sheet.maps = {};
  sheet.blind_zones.clear();
  svg = drawn(sheet);
  for (const char* word : {"masked", "too coarse", "blind zone", "worst spot", "px/m of a task",
                           "margin: found over needed density"})
    EXPECT_FALSE(svg.has(word)) << word;
}

// Property: every reason leaves marks of its own on paper, and they differ; served leaves none.
TEST(PaintHatch, EveryReasonIsDrawnDifferently) {
  ensureGui();
  const Region square{{{{2, 2}, {22, 2}, {22, 22}, {2, 22}}, {}}};
  std::vector<QImage> pictures;
  for (int r = 0; r < proof::kReasonCount; ++r) {
    QImage image(240, 240, QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter painter(&image);
    painter.scale(10, 10);
    {
      Canvas canvas(painter);
      paintHatch(canvas, Inks::light(), square, static_cast<proof::Reason>(r));
    }
    painter.end();
    for (const QImage& other : pictures) EXPECT_NE(image, other) << r;
    pictures.push_back(image);
  }
}

// Property: names, figures and the words of verdict and title block are there, as text.
TEST_F(SheetTest, WordsAreThereAsText) {
  const Svg svg = drawn(madeUpSheet());
  for (const char* word :
       {"R1  By the door", "recognise, 125 px/m", "C1", "250", "blind 1.8 m² at 0.2 m",
        "not met 78.1 to 78.5 % of 95", "too coarse 11.8 %, hidden 10.0 %",
        "R1 worst: too coarse, 90.2 of 125 px/m", "Made-up hall", "Ground floor", "3f9a01c2",
        "IEC 62676-4:2014", "N", "just met", "2 times", "8 and more"})
    EXPECT_TRUE(svg.has(word)) << word;
  EXPECT_TRUE(svg.hasPart("2026-03-04"));
  EXPECT_FALSE(svg.hasPart("3f9a01c2d"));
}

// Property: what the brief asks beyond coverage stands with its requirement, or as a row of its own
// where it asks for nothing to be seen.
TEST_F(SheetTest, WhatElseIsAskedStandsInTheLedger) {
  Sheet sheet = madeUpSheet();
  design::Design design = sheet.design;
  design::Requirement money;
  money.id.text = "R7";
  money.kind = design::RequirementKind::money;
  money.purpose = "Keep the bill";
  design.brief.push_back(money);
  sheet.design = design;
  EXPECT_FALSE(drawn(sheet).has("R7  Keep the bill"));  // nobody has judged it yet
  sheet.demands = {{{"R1"}, proof::Verdict::met, "21 days kept"},
                   {{"R7"}, proof::Verdict::undecided, "one part has no price"}};
  const Svg svg = drawn(sheet);
  for (const char* word : {"met: 21 days kept", "R7  Keep the bill",
                           "undecided: one part has no price", "not met 78.1 to 78.5 % of 95"})
    EXPECT_TRUE(svg.has(word)) << word;
}

// Property: the same sheet gives the same bytes, and no date of today.
TEST_F(SheetTest, SameSheetSameBytes) {
  const Sheet sheet = madeUpSheet();
  writeSvg(sheet, folder_ / "a.svg");
  writeSvg(sheet, folder_ / "b.svg");
  EXPECT_EQ(bytesOf(folder_ / "a.svg"), bytesOf(folder_ / "b.svg"));
  writePng(sheet, folder_ / "a.png");
  writePng(sheet, folder_ / "b.png");
  EXPECT_EQ(bytesOf(folder_ / "a.png"), bytesOf(folder_ / "b.png"));
}

// Closed form: A3 at 150 dots an inch is 420 / 25.4 * 150 by 297 / 25.4 * 150.
TEST_F(SheetTest, PngIsA3AtItsResolution) {
  writePng(madeUpSheet(), folder_ / "plan.png");
  const QImage image(QString::fromStdString((folder_ / "plan.png").string()));
  EXPECT_EQ(image.width(), 2480);
  EXPECT_EQ(image.height(), 1754);
  EXPECT_NEAR(image.dotsPerMeterX() * 0.0254, 150, 0.1);
}

// Property: dark paper has the same words.
TEST_F(SheetTest, DarkSheetSaysTheSame) {
  Sheet sheet = madeUpSheet();
  const std::set<std::string> light = drawn(sheet).texts;
  sheet.inks = Inks::dark();
  EXPECT_EQ(drawn(sheet).texts, light);
}

// Property: a file that cannot be written is said, and nothing is left behind.
TEST_F(SheetTest, SaysWhenAFileCannotBeWritten) {
  EXPECT_THROW(writeSvg(madeUpSheet(), folder_ / "no such folder" / "plan.svg"), std::system_error);
}

// Property: figures of bounds are rounded outwards; a lower bound below the asked share never
// prints as the asked share.
TEST(VerdictWords, RoundsBoundsOutwards) {
  proof::RequirementProof row;
  row.asked = 0.95;
  row.verdict = proof::Verdict::met;
  row.share = {0.96209, 0.96391};
  EXPECT_EQ(verdictWords(row), "met 96.2 to 96.4 % of 95");
  row.verdict = proof::Verdict::undecided;
  row.share = {0.94999, 0.95001};
  EXPECT_EQ(verdictWords(row), "undecided 94.9 to 95.1 % of 95");
  row.verdict = proof::Verdict::met;
  row.share = {1, 1};
  EXPECT_EQ(verdictWords(row), "met 100.0 % of 95");
  row.asked = 0.925;
  row.verdict = proof::Verdict::not_met;
  row.share = {0, 0};
  EXPECT_EQ(verdictWords(row), "not met 0.0 % of 92.5");
}

// Property: a withheld zone states what is proven: an upper bound when met, a density that is
// reached when not.
TEST(VerdictWords, WithheldZonesStateTheirDensity) {
  proof::RequirementProof row;
  row.kind = design::RequirementKind::withhold;
  row.needed_px_per_m = 12.5;
  row.densest_px_per_m = proof::Bounds{9.71, 9.78};
  row.verdict = proof::Verdict::met;
  EXPECT_EQ(verdictWords(row), "met 9.8 of at most 12.5 px/m");
  row.densest_px_per_m = proof::Bounds{31.29, 31.4};
  row.verdict = proof::Verdict::not_met;
  EXPECT_EQ(verdictWords(row), "not met 31.2 of at most 12.5 px/m");
  row.densest_px_per_m = proof::Bounds{12.44, 12.61};
  row.verdict = proof::Verdict::undecided;
  EXPECT_EQ(verdictWords(row), "undecided 12.4 to 12.7 px/m of 12.5");
}

}  // namespace
}  // namespace belvedere::drawing
