// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is asked of the evaluator is answered: a spot though another is asked for and the selection
// changes meanwhile, of the design that it was asked of; and what is stopped stays stopped.
#include <QSignalSpy>
#include <QTest>

#include <algorithm>

#include "desk/evaluator.h"
#include "proof/sun_findings.h"
#include "desk_test_tools.h"

namespace belvedere::desk {

class EvaluatorTest : public QObject {
  Q_OBJECT

 private Q_SLOTS:
  void initTestCase() {
    const design::DesignFile file = design::readDesign(examplePath("shop/design.json"));
    wish_.design = std::make_shared<const design::Design>(file.design);
    wish_.folder = file.path.parent_path();
    wish_.version = 7;
    wish_.storey = {"ground"};
    wish_.situation = design::situationsOf(file.design).front().id;
  }

  // Property: changes sought for a requirement's worst spot come, though the selection changes while
  // they are sought and the pointer rests elsewhere; each answer says what it answers.
  void aSpotIsAnsweredThoughAnotherIsAskedFor() {
    Evaluator evaluator;
    bool first = true;
    QList<quint64> of_requirement, of_pointer;
    connect(&evaluator, &Evaluator::explained, this,
            [&](const std::shared_ptr<const proof::SpotExplanation>&, bool changes_sought,
                const SpotWish& asked) {
              if (first) {  // its changes are sought now
                first = false;
                evaluator.ask(spot(SpotOf::pointer, {0.4, 2.6}));
                evaluator.wish(wish_);
              }
              if (changes_sought)
                (asked.of == SpotOf::requirement ? of_requirement : of_pointer) << asked.version;
            });
    evaluator.wish(wish_);
    evaluator.ask(spot(SpotOf::requirement, {0.05, 2.55}));
    QVERIFY(QTest::qWaitFor([&] { return !of_requirement.empty(); }, 120'000));
    QCOMPARE(of_requirement, QList<quint64>{7});
    QVERIFY(QTest::qWaitFor([&] { return !evaluator.isBusy(); }, 120'000));
  }

  // Property: a spot of a design that is changed meanwhile is not answered as one of the new.
  void aSpotOfAnOlderDesignIsLeftOut() {
    Evaluator evaluator;
    QList<quint64> sought;
    connect(&evaluator, &Evaluator::explained, this,
            [&](const std::shared_ptr<const proof::SpotExplanation>&, bool changes_sought,
                const SpotWish& asked) {
              if (changes_sought) sought << asked.version;
            });
    evaluator.wish(wish_);
    evaluator.ask(spot(SpotOf::requirement, {0.05, 2.55}));
    Wish newer = wish_;
    newer.version = 8;
    evaluator.wish(newer);
    QVERIFY(QTest::qWaitFor([&] { return evaluator.now()->wholly_proven; }, 120'000));
    QCOMPARE(sought, QList<quint64>{});
  }

  // Property: stopped while the hand has just come to rest, nothing is proven.
  void stoppedBeforeTheProofBeginsNothingIsProven() {
    int stopped_in_time = 0;
    for (int attempt = 0; attempt < 20 && stopped_in_time == 0; ++attempt) {
      Evaluator evaluator;
      QSignalSpy progressed(&evaluator, &Evaluator::progressed);
      evaluator.wish(wish_);
      // The last word before the rest is of the whole brief's previews.
      QVERIFY(QTest::qWaitFor(
          [&] {
            const auto& rows = evaluator.now()->rows;
            return !rows.empty() && std::ranges::none_of(rows, [](const LedgerRow& row) {
              return row.known == Known::nothing &&
                     row.proof.kind == design::RequirementKind::see;
            });
          },
          60'000));
      evaluator.cancel();
      if (!progressed.empty()) continue;  // a machine so busy that the proof had begun
      ++stopped_in_time;
      QTest::qWait(1500);
      QCOMPARE(progressed.size(), 0);
      QVERIFY(!evaluator.isBusy());
      QVERIFY(!evaluator.now()->wholly_proven);
    }
    QCOMPARE(stopped_in_time, 1);
  }

  // Property: what the sun does follows the proof and stands among the findings that `prove` says; stopped
  // meanwhile, the proof stays and says that the sun is not known.
  void theSunsFindingsFollowTheProof() {
    const design::DesignFile file = design::readDesign(examplePath("solar_farm/design.json"));
    Wish wish;
    wish.design = std::make_shared<const design::Design>(file.design);
    wish.folder = file.path.parent_path();
    wish.version = 3;
    wish.storey = {"ground"};
    wish.situation = design::situationsOf(file.design).front().id;
    const auto ofTheSun = [](const Evaluation& known) {
      QStringList sentences;
      for (const Finding& finding : known.findings)
        if (finding.code.starts_with("sun_") || finding.code == "backlight")
          sentences << QString::fromStdString(finding.sentence);
      return sentences;
    };
    QStringList expected;
    for (const Finding& finding : proof::sunFindings(file.design, wish.folder, Progress{}))
      expected << QString::fromStdString(finding.sentence);
    QVERIFY(!expected.empty());
    {
      Evaluator evaluator;
      evaluator.wish(wish);
      QVERIFY(QTest::qWaitFor([&] { return evaluator.now()->sun_known; }, 120'000));
      QVERIFY(evaluator.now()->wholly_proven);
      QCOMPARE(ofTheSun(*evaluator.now()), expected);
    }
    Evaluator stopped;
    connect(&stopped, &Evaluator::evaluated, this, [&] {
      if (stopped.now()->wholly_proven && !stopped.now()->sun_known) stopped.cancel();
    });
    stopped.wish(wish);
    QVERIFY(QTest::qWaitFor([&] { return stopped.now()->wholly_proven && !stopped.isBusy(); }, 120'000));
    QVERIFY(stopped.now()->sun_known || ofTheSun(*stopped.now()).empty());
  }

 private:
  SpotWish spot(SpotOf of, Vec2 at) const {
    return {of, wish_.version, wish_.design, wish_.folder, {"R1"}, {"open"}, at, true};
  }
  Wish wish_;
};

}  // namespace belvedere::desk

QTEST_MAIN(belvedere::desk::EvaluatorTest)
#include "evaluator_test.moc"
