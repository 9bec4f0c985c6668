// SPDX-License-Identifier: GPL-3.0-or-later
//
// A situation's light in figures, and the best pairing of a housing's lamps and imagers, worked out beside
// the window. The newest wish wins.
#pragma once

#include <QObject>

#include <filesystem>
#include <memory>
#include <optional>

#include "desk/wish_thread.h"
#include "proof/lamp_pairing.h"
#include "proof/lit_situation.h"

namespace belvedere::desk {

struct LightWish {
  std::shared_ptr<const design::Design> design;
  std::filesystem::path folder;
  quint64 version = 0;
  design::Situation situation;
};

// A value that nobody changes.
struct LightAnswer {
  quint64 version = 0;
  design::SituationId situation;
  proof::LitSituation lit;
};

class LightMaker : public QObject {
  Q_OBJECT

 public:
  explicit LightMaker(QObject* parent = nullptr);
  void wish(LightWish wish) { thread_.wish(std::move(wish)); }
  // The last one made; null before the first.
  std::shared_ptr<const LightAnswer> now() const { return now_; }
  bool isBusy() const { return thread_.isBusy(); }

 Q_SIGNALS:
  void made();                          // now() is new
  void failed(const QString& sentence);

 private:
  void make(const LightWish& wish);

  std::shared_ptr<const LightAnswer> now_;
  WishThread<LightWish> thread_;
};

struct PairingWish : LightWish {
  design::HousingId housing;
};
struct PairingAnswer {
  quint64 version = 0;
  design::SituationId situation;
  design::HousingId housing;
  std::optional<proof::LampPairing> pairing;  // as bestLamps has it
};

class PairingMaker : public QObject {
  Q_OBJECT

 public:
  explicit PairingMaker(QObject* parent = nullptr);
  void wish(PairingWish wish) { thread_.wish(std::move(wish)); }
  void cancel() { thread_.cancel(); }
  std::shared_ptr<const PairingAnswer> now() const { return now_; }
  bool isBusy() const { return thread_.isBusy(); }

 Q_SIGNALS:
  void made();
  void rested();                        // nothing is under way
  void failed(const QString& sentence);

 private:
  void make(const PairingWish& wish);

  std::shared_ptr<const PairingAnswer> now_;
  WishThread<PairingWish> thread_;
};

}  // namespace belvedere::desk
