// SPDX-License-Identifier: GPL-3.0-or-later
#include "services/network.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "made_up.h"

namespace belvedere::services {
namespace {

// ANSI/TIA-568-C.2 annex G, recalled from a cable-test reference whose name was not kept: 84 m of
// unscreened cable at a mean of 40 C with 10 m of cords; ISO/IEC 11801-1:2017, recalled: 90 m at 20 C.
// Tolerance: a metre.
TEST(Network, WarmCableIsShorter) {
  EXPECT_EQ(longestFixedCableM(20, false), 90);
  EXPECT_EQ(longestFixedCableM(0, false), 90);
  EXPECT_NEAR(longestFixedCableM(40, false), 84, 1);
  EXPECT_LT(longestFixedCableM(60, false), longestFixedCableM(60, true));
}

// Cameras on two switches, a recorder and a viewer on the second.
struct Site {
  Design design = designWith({hall()});
  Site(int cameras, double mbps) {
    design.catalogue.models = {housingModel("m"),
                               part("sw", ModelKind::switch_,
                                    {.ports = 24, .uplinks = 2, .port_mbps = 100, .uplink_mbps = 1000}),
                               part("nvr", ModelKind::recorder, {.channels = 32, .uplink_mbps = 1000}),
                               part("pc", ModelKind::viewer, {.uplink_mbps = 1000})};
    for (int i = 0; i < cameras; ++i) {
      const std::string id = "C" + std::to_string(i + 1);
      design.housings.push_back(housing(id, "m", {10, 1, 3}));
      Stream s = stream("s" + std::to_string(i + 1), 1);
      s.rate = Rate{"constant", mbps};
      design.housings.back().streams.push_back(s);
      design.services.links.push_back(link("k" + std::to_string(i + 1), id, "A"));
      Recording r;
      r.id = {"r" + std::to_string(i + 1)};
      r.stream = s.id;
      r.device = {"R"};
      r.days = 30;
      design.services.recording.push_back(r);
    }
    design.services.devices = {device("A", "sw", Vec3{1, 0, 1}), device("B", "sw", Vec3{19, 0, 1}),
                               device("R", "nvr", Vec3{20, 1, 1}), device("V", "pc", Vec3{20, 2, 1})};
    design.services.links.push_back(link("up", "A", "B"));
    design.services.links.push_back(link("rec", "B", "R"));
    design.services.links.push_back(link("view", "B", "V"));
  }
  Network network() const { return networkOf(design, streamRates(design)); }
  static const Cable& cable(const Network& n, const std::string& id) {
    return *std::ranges::find_if(n.cables, [&](const Cable& c) { return c.link.text == id; });
  }
};

// Closed form: at medium activity H.265 1920 x 1080 at 10 frames a second is 0.50, 0.87 and 1.45 Mbit/s
// by day; night doubles it, is shown apart, and its high end loads every port, the uplink and the
// recorder: 3 x 2.90 = 8.71.
TEST(NetworkLoad, SumsEqualByHandAndTheNightFactorIsShownApart) {
  Site site(3, 8);
  for (Housing& h : site.design.housings) h.streams[0].rate.reset();
  const StreamRate rate = streamRates(site.design).at(0);
  const double px_per_s = 1920.0 * 1080 * 10;
  EXPECT_NEAR(rate.day_mbps.typical, px_per_s * 0.042 / 1e6, 1e-9);
  EXPECT_NEAR(rate.night_mbps.high, 2 * px_per_s * 0.07 / 1e6, 1e-9);
  const Network n = site.network();
  for (const char* port : {"k1", "k2", "k3"})
    EXPECT_NEAR(Site::cable(n, port).load_mbps, rate.night_mbps.high, 1e-9);
  for (const char* all : {"up", "rec"})
    EXPECT_NEAR(Site::cable(n, all).load_mbps, 3 * rate.night_mbps.high, 1e-9);
  EXPECT_NEAR(n.parts.at(2).in_mbps, 3 * rate.night_mbps.high, 1e-9);
}

// Closed form: 24 cameras of 8 Mbit/s and 60 Mbit/s of viewing load an uplink of 1000 with 252.
TEST(Network, UplinkCarriesPortsAndViewing) {
  Site site(24, 8);
  Screen screen;
  screen.id = {"e"};
  screen.stream = {"s1"};
  screen.device = {"V"};
  for (int i = 0; i < 7; ++i) site.design.services.screens.push_back(screen);  // 7 tiles of 8
  const Network n = site.network();
  EXPECT_NEAR(Site::cable(n, "up").load_mbps, 24 * 8 + 7 * 8, 1e-9);
  EXPECT_NEAR(Site::cable(n, "rec").load_mbps, 192, 1e-9);
  EXPECT_NEAR(Site::cable(n, "view").load_mbps, 56, 1e-9);
  EXPECT_NEAR(Site::cable(n, "k1").load_mbps, 8 + 56, 1e-9);
  // What it is made of: the stream that is recorded and shown on seven tiles eight times, the others once.
  const std::vector<Carried>& up = Site::cable(n, "up").carries;
  ASSERT_EQ(up.size(), 24u);
  for (const Carried& of : up) EXPECT_NEAR(of.mbps, of.stream.text == "s1" ? 64 : 8, 1e-9);
  ASSERT_EQ(Site::cable(n, "view").carries.size(), 1u);
  EXPECT_EQ(Site::cable(n, "view").carries[0].stream.text, "s1");
  EXPECT_EQ(Site::cable(n, "up").rate_mbps, 1000);
  EXPECT_EQ(Site::cable(n, "k1").rate_mbps, 100);
}

// Property: multicast puts a stream on a link once, however many take it.
TEST(Network, MulticastLoadsALinkOnce) {
  Site site(1, 8);
  for (int i = 0; i < 3; ++i) {
    Screen screen;
    screen.stream = {"s1"};
    screen.device = {"V"};
    site.design.services.screens.push_back(screen);
  }
  EXPECT_NEAR(Site::cable(site.network(), "up").load_mbps, 32, 1e-9);
  site.design.housings[0].streams[0].delivery = "multicast";
  const Network n = site.network();
  EXPECT_NEAR(Site::cable(n, "up").load_mbps, 8, 1e-9);
  EXPECT_NEAR(Site::cable(n, "view").load_mbps, 8, 1e-9);
}

// Property: a viewer takes in a multicast stream once, however many tiles show it; a recorder takes a
// stream once, however many lines of the recording keep it.
TEST(Network, WhatIsTakenInOnceCountsOnce) {
  Site site(1, 8);
  const auto in = [&](const char* id) {
    for (const PartLoad& part : site.network().parts)
      if (part.device.text == id) return part.in_mbps;
    return -1.0;
  };
  site.design.services.recording.push_back(site.design.services.recording[0]);
  site.design.services.recording.back().id = {"again"};
  EXPECT_NEAR(in("R"), 8, 1e-9);
  EXPECT_NEAR(Site::cable(site.network(), "rec").load_mbps, 8, 1e-9);
  for (int i = 0; i < 3; ++i) {
    Screen screen;
    screen.stream = {"s1"};
    screen.device = {"V"};
    site.design.services.screens.push_back(screen);
  }
  EXPECT_NEAR(in("V"), 24, 1e-9);
  site.design.housings[0].streams[0].delivery = "multicast";
  EXPECT_NEAR(in("V"), 8, 1e-9);
}

// Property: what is rated as an uplink is counted as one: of two uplinks one goes to the other switch,
// one to the recorder; the viewer hangs on a port, at a port's rate.
TEST(Network, UplinksAreCountedAsTheyAreRated) {
  Site site(1, 8);
  const Network n = site.network();
  const auto part = std::ranges::find(n.parts, "B", [](const PartLoad& p) { return p.device.text; });
  EXPECT_EQ(part->uplinks_used, 2);
  EXPECT_EQ(part->ports_used, 1);
  EXPECT_EQ(Site::cable(n, "up").rate_mbps, 1000);
  EXPECT_EQ(Site::cable(n, "rec").rate_mbps, 1000);
  EXPECT_EQ(Site::cable(n, "view").rate_mbps, 100);
}

// Property: a mid-span of one port stands between a switch and a camera; a second camera on it is one
// too many.
TEST(Network, AnInjectorsPortHasTwoSides) {
  Site site(2, 1);
  site.design.catalogue.models.push_back(part("mid", ModelKind::injector, {.ports = 1}));
  site.design.services.devices.push_back(device("M", "mid", Vec3{2, 0, 1}));
  site.design.services.links[0].to = {"M"};
  site.design.services.links.push_back(link("in", "M", "A"));
  const auto used = [&] {
    const Network n = site.network();
    return std::ranges::find(n.parts, "M", [](const PartLoad& p) { return p.device.text; })->ports_used;
  };
  EXPECT_EQ(used(), 1);
  site.design.services.links[1].to = {"M"};
  EXPECT_EQ(used(), 2);
}

// docs/format.md: a cable is twisted pair, or power where it states ohm_per_km alone.
TEST(Network, AConductorThatStatesItsResistanceAloneIsPower) {
  const auto media = [](const Capacity& c) {
    const Model model = part("c", ModelKind::cable, c);
    return mediaOf(&model);
  };
  EXPECT_EQ(media({.ohm_per_km = 7.41}), Media::power);
  EXPECT_EQ(media({.port_mbps = 1000, .ohm_per_km = 66.8}), Media::twisted_pair);
  EXPECT_EQ(media({.screened = true, .ohm_per_km = 66.8}), Media::twisted_pair);
  EXPECT_EQ(media({.media = "twisted_pair", .ohm_per_km = 66.8}), Media::twisted_pair);
  EXPECT_EQ(media({}), Media::twisted_pair);
  EXPECT_EQ(mediaOf(nullptr), Media::twisted_pair);
}

// Property: a cut uplink cuts off all behind it, a cut camera cable its camera; a second uplink
// cuts off nobody.
TEST(Network, WhatAFailureCutsOff) {
  Site site(3, 4);
  Network n = site.network();
  EXPECT_EQ(Site::cable(n, "up").cut_off.size(), 3);
  EXPECT_EQ(Site::cable(n, "k2").cut_off, std::vector<HousingId>{{"C2"}});
  EXPECT_EQ(Site::cable(n, "rec").cut_off.size(), 3);
  EXPECT_TRUE(Site::cable(n, "view").cut_off.empty());
  site.design.services.links.push_back(link("up2", "B", "A"));
  n = site.network();
  EXPECT_TRUE(Site::cable(n, "up").cut_off.empty());
}

TEST(Network, StreamsThatReachNobodyAreNamed) {
  Site site(2, 4);
  std::erase_if(site.design.services.links, [](const Link& l) { return l.id.text == "k2"; });
  const Network n = site.network();
  ASSERT_EQ(n.unreached.size(), 1);
  EXPECT_EQ(n.unreached[0].stream.text, "s2");
  EXPECT_EQ(n.unreached[0].sink.text, "R");
  ASSERT_EQ(n.unlinked.size(), 1);
  EXPECT_EQ(n.unlinked[0].text, "C2");
}

// Closed form: 9 m along the wall, 1 m to it, 1 + 3 m up and down, and 2 m of slack.
TEST(Network, LengthIsComputedAndSlackAdded) {
  Site site(1, 4);
  site.design.services.links[0].slack_m = 2;
  const Network n = site.network();
  const Cable& cable = Site::cable(n, "k1");
  EXPECT_NEAR(cable.length_m, (1 + 1) + 9 + 3 + 2, 1e-9);
}

// Property: a mid-span makes one channel of its two cables; an extender starts a new one.
TEST(Network, ExtendersStartANewChannel) {
  Site site(1, 4);
  Model between = part("mid", ModelKind::injector, {.ports = 1, .poe_class = 4});
  site.design.catalogue.models.push_back(between);
  site.design.services.devices.push_back(device("I", "mid", Vec3{5, 0, 1}));
  site.design.services.links[0] = link("k1", "C1", "I");
  site.design.services.links.push_back(link("k1b", "I", "A"));
  Network n = site.network();
  const double both = Site::cable(n, "k1").length_m + Site::cable(n, "k1b").length_m;
  EXPECT_NEAR(Site::cable(n, "k1").channel_m, both, 1e-9);
  site.design.catalogue.models.back().capacity->repeats = true;
  n = site.network();
  EXPECT_EQ(Site::cable(n, "k1").channel_m, Site::cable(n, "k1").length_m);
}

}  // namespace
}  // namespace belvedere::services
