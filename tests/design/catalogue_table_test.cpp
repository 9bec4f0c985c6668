// SPDX-License-Identifier: GPL-3.0-or-later
#include "design/catalogue_table.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "sample.h"

namespace belvedere::design {
namespace {

std::vector<Model> wholeModels() {
  DesignFile file = readDesignText(wholeText(), dataFolder());
  std::vector<Model> models = file.design.catalogue.models;
  models.insert(models.end(), file.design.library.begin(), file.design.library.end());
  return models;
}

bool said(const CsvCatalogue& csv, const std::string& code, const std::string& where) {
  return std::any_of(csv.problems.begin(), csv.problems.end(), [&](const Problem& p) {
    return p.code == code && p.where == where;
  });
}

// Property: what is written as a table reads back the same, every key of a model in it.
TEST(CatalogueTable, ComesBackAsItWas) {
  const std::vector<Model> models = wholeModels();
  const CsvCatalogue back = readCatalogueCsv(catalogueCsv(models));
  for (const Problem& p : back.problems) ADD_FAILURE() << p.where << ": " << p.what;
  EXPECT_TRUE(back.models == models);
}

// Regression: a list's items were split at every space, so that an id with one in it became two.
TEST(CatalogueTable, IdsWithSpacesStayWhole) {
  std::vector<Model> models = readCatalogueText(
      R"({"format": "belvedere.catalogue", "version": 1, "models": [
        {"id": "dome 4", "kind": "mount"}, {"id": "say \"six\"", "kind": "mount"},
        {"id": "arm", "kind": "mount", "fits": ["wall", "pole"]}]})");
  for (Model& model : models) model.kind = ModelKind::mount;
  models[2].takes = {{"dome 4"}, {"say \"six\""}, {"plain"}};
  models[0].takes = {{"=1+1"}, {"a b"}};
  std::vector<Model> known = models;
  for (const char* id : {"plain", "=1+1", "a b"}) {
    Model model;
    model.id = {id};
    known.push_back(model);
    known.back().kind = ModelKind::mount;
  }
  const CsvCatalogue back = readCatalogueCsv(catalogueCsv(known));
  for (const Problem& p : back.problems) ADD_FAILURE() << p.where << ": " << p.what;
  EXPECT_TRUE(back.models == known);
  const auto test = propertyTest("takes=dome 4");
  ASSERT_TRUE(test);
  EXPECT_TRUE(passes(propertiesOf(models[2]), *test));
  EXPECT_FALSE(passes(propertiesOf(models[0]), *test));
}

TEST(CatalogueTable, GoodRowsAreKeptAndBadOnesNamed) {
  const CsvCatalogue csv = readCatalogueCsv(
      "id,kind,title,price,capacity/ports,capacity/prots\n"
      "a,switch,One,310,8,\n"
      "b,swich,Two,10,8,\n"
      "c,switch,Three,cheap,8,\n"
      "d,switch,Four,-5,8,\n"
      "a,switch,Five,5,8,\n"
      "e,switch,Six,5,24,\n");
  ASSERT_EQ(csv.models.size(), 2u);
  EXPECT_EQ(csv.models[0].id.text, "a");
  EXPECT_EQ(csv.models[1].id.text, "e");
  EXPECT_EQ(*csv.models[1].capacity->ports, 24);
  EXPECT_TRUE(said(csv, "unknown_column", "row 1, column capacity/prots"));
  EXPECT_TRUE(said(csv, "unknown_word", "row 3, column kind"));
  EXPECT_TRUE(said(csv, "bad_cell", "row 4, column price"));
  EXPECT_TRUE(said(csv, "out_of_range", "row 5, column price"));
  EXPECT_TRUE(said(csv, "duplicate_id", "row 6, column id"));
}

TEST(CatalogueTable, DecimalCommasAreReadRightOrRefused) {
  // Semicolons and decimal commas, as a spreadsheet of many countries saves.
  CsvCatalogue csv = readCatalogueCsv("id;kind;price;mass_kg\na;mount;12,50;1,250\n");
  ASSERT_EQ(csv.models.size(), 1u);
  EXPECT_EQ(*csv.models[0].price, 12.5);
  EXPECT_EQ(*csv.models[0].mass_kg, 1.25);  // 12,50 tells what the comma is
  // Nothing tells: 1,250 may be a thousand and more.
  csv = readCatalogueCsv("id;kind;mass_kg\na;mount;1,250\n");
  EXPECT_TRUE(csv.models.empty());
  EXPECT_TRUE(said(csv, "bad_cell", "row 2, column mass_kg"));
  csv = readCatalogueCsv("id;kind;mass_kg\na;mount;1.250\n");
  EXPECT_TRUE(csv.models.empty());
  // Between commas, a comma within a number is refused.
  csv = readCatalogueCsv("id,kind,mass_kg\na,mount,\"1,5\"\nb,mount,1.250\n");
  ASSERT_EQ(csv.models.size(), 1u);
  EXPECT_EQ(*csv.models[0].mass_kg, 1.25);
  // Both marks in one number are refused everywhere.
  csv = readCatalogueCsv("id;kind;price\na;mount;1.234,50\n");
  EXPECT_TRUE(csv.models.empty());
}

// Property: a point in a text says nothing of the numbers: 1.500 may be a thousand and more.
TEST(CatalogueTable, TextsTellNothingOfTheDecimalMark) {
  const CsvCatalogue csv =
      readCatalogueCsv("id;kind;title;price;capacity/ports\nA;switch;Switch 2.8;1.500;8\n");
  EXPECT_TRUE(csv.models.empty());
  EXPECT_TRUE(said(csv, "bad_cell", "row 2, column price"));
}

// Property: ids that hold blanks come back as they were, and so do several of them.
TEST(CatalogueTable, TextsOfAListMayHoldBlanks) {
  Model model;
  model.id = {"arm"};
  model.kind = ModelKind::mount;
  model.fits = {"ceiling", "wall"};
  model.takes = {{"turret 4k"}, {"dome"}, {"=2+3"}};
  std::vector<Model> models{model};
  for (const ModelId& id : model.takes) {
    models.emplace_back();
    models.back().id = id;
    models.back().kind = ModelKind::mount;  // of whatever kind: what matters is that it is there
  }
  const CsvCatalogue back = readCatalogueCsv(catalogueCsv(models));
  for (const Problem& p : back.problems) ADD_FAILURE() << p.where << ": " << p.what;
  ASSERT_EQ(back.models.size(), 4u);
  EXPECT_TRUE(back.models[0] == model);
  EXPECT_TRUE(passes(propertiesOf(model), *propertyTest("takes=turret 4k")));
  EXPECT_TRUE(passes(propertiesOf(model), *propertyTest("fits=wall")));
}

// Property: however many rows are at fault, the good ones are kept and rows are named, not pointers.
TEST(CatalogueTable, AThousandBadRowsLeaveTheGoodOnes) {
  std::string text = "id,kind,capacity/ports\n";
  for (int i = 0; i < 2500; ++i) text += "b" + std::to_string(i) + ",switch,-1\n";
  text += "good,switch,8\n";
  const CsvCatalogue csv = readCatalogueCsv(text);
  ASSERT_EQ(csv.models.size(), 1u);
  EXPECT_EQ(csv.models[0].id.text, "good");
  EXPECT_EQ(csv.problems.size(), 2500u);
  for (const Problem& p : csv.problems) EXPECT_TRUE(p.where.starts_with("row ")) << p.where;
}

TEST(CatalogueTable, UnitsAreThoseOfTheColumn) {
  const CsvCatalogue csv = readCatalogueCsv(
      "id,kind,mass_kg,power/idle_w\na,mount,2 kg,15 W\nb,mount,2000 g,15\nc,mount,2,0.015 kW\n");
  ASSERT_EQ(csv.models.size(), 1u);
  EXPECT_EQ(*csv.models[0].mass_kg, 2);
  EXPECT_EQ(*csv.models[0].power->idle_w, 15);
  EXPECT_TRUE(said(csv, "bad_cell", "row 3, column mass_kg"));
  EXPECT_TRUE(said(csv, "bad_cell", "row 4, column power/idle_w"));
  // A unit that ends in a digit is none of the number's.
  const CsvCatalogue areas = readCatalogueCsv(
      "id,kind,wind_area_m2\na,housing,0.02 m2\nb,housing,0.02\nc,housing,2 cm2\n");
  for (const Model& model : areas.models) EXPECT_EQ(model.wind_area_m2, 0.02) << model.id.text;
  EXPECT_TRUE(said(areas, "bad_cell", "row 4, column wind_area_m2"));
}

TEST(CatalogueTable, FormulasStayText) {
  Model model;
  model.id = {"a"};
  model.kind = ModelKind::mount;
  model.title = "=HYPERLINK(\"x\")";
  const std::string csv = catalogueCsv({model});
  EXPECT_NE(csv.find("'=HYPERLINK"), std::string::npos);
  EXPECT_EQ(readCatalogueCsv(csv).models.at(0).title, model.title);
}

TEST(CatalogueTable, WhatIsNoTableIsRefused) {
  const auto code = [](const std::string& text) {
    try {
      readCatalogueCsv(text);
    } catch (const InputError& error) {
      return error.problems().at(0).code;
    }
    return std::string("read");
  };
  EXPECT_EQ(code(""), "csv_empty");
  EXPECT_EQ(code("kind,title\nmount,x\n"), "csv_without_id");
  EXPECT_EQ(code("id,title\na,\"open\n"), "csv_open_quote");
  EXPECT_EQ(code("id,title\na,\xff\xfe\n"), "csv_encoding");
  EXPECT_EQ(code(std::string("id\na\0b\n", 7)), "csv_encoding");
  EXPECT_EQ(code("id" + std::string(5000, ',')), "csv_too_large");
  // A byte order mark, carriage returns and quoted line feeds are ordinary.
  const CsvCatalogue csv =
      readCatalogueCsv("\xef\xbb\xbfid,kind,title\r\na,mount,\"two\nlines\"\r\n");
  EXPECT_EQ(csv.models.at(0).title, "two\nlines");
}

TEST(CatalogueTable, PropertiesAreTested) {
  const std::vector<Model> models = wholeModels();
  const auto passing = [&](const std::string& text) {
    const auto test = propertyTest(text);
    EXPECT_TRUE(test) << text;
    std::string ids;
    for (const Model& model : models)
      if (passes(propertiesOf(model), *test)) ids += (ids.empty() ? "" : " ") + model.id.text;
    return ids;
  };
  EXPECT_EQ(passing("capacity/ports>=8"), "switch");
  EXPECT_EQ(passing("ports>8"), "");
  EXPECT_EQ(passing("kind=card"), "sd");
  EXPECT_EQ(passing("ratings/ip~66"), "head");
  EXPECT_EQ(passing("hfov_deg<=31"), "head");  // one end of its zoom
  EXPECT_EQ(passing("fits=WALL"), "arm");
  EXPECT_EQ(passing("fits!=wall"), "bracket");
  EXPECT_FALSE(propertyTest("ports"));
  EXPECT_FALSE(propertyTest(">=8"));
  EXPECT_FALSE(propertyTest("ports>="));
}

}  // namespace
}  // namespace belvedere::design
