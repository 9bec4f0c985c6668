// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/light_maker.h"

#include <utility>

#include "base/problem.h"

namespace belvedere::desk {
namespace {

// What cannot be worked out is said in the window.
template <class Maker, class Work>
void orSay(Maker* maker, Work work) {
  try {
    work();
  } catch (const InputError& error) {
    const QString sentence = QString::fromStdString(error.problems().front().what);
    inWindowOf(maker, [maker, sentence] { Q_EMIT maker->failed(sentence); });
  }
}

}  // namespace

LightMaker::LightMaker(QObject* parent)
    : QObject(parent),
      thread_([this](const LightWish& wish) { orSay(this, [&] { make(wish); }); }) {}

void LightMaker::make(const LightWish& wish) {
  auto made = std::make_shared<const LightAnswer>(
      LightAnswer{wish.version, wish.situation.id,
                  proof::litSituation(*wish.design, wish.situation, wish.folder, thread_.progress)});
  inWindowOf(this, [this, made = std::move(made)] {
    now_ = made;
    Q_EMIT this->made();
  });
}

PairingMaker::PairingMaker(QObject* parent)
    : QObject(parent),
      thread_([this](const PairingWish& wish) { orSay(this, [&] { make(wish); }); },
              [this] { inWindowOf(this, [this] { Q_EMIT rested(); }); }) {}

void PairingMaker::make(const PairingWish& wish) {
  const design::Housing* housing = design::findHousing(*wish.design, wish.housing);
  if (!housing) return;
  auto made = std::make_shared<const PairingAnswer>(PairingAnswer{
      wish.version, wish.situation.id, wish.housing,
      proof::bestLamps(*wish.design, *housing, wish.situation, wish.folder, thread_.progress)});
  inWindowOf(this, [this, made = std::move(made)] {
    now_ = made;
    Q_EMIT this->made();
  });
}

}  // namespace belvedere::desk
