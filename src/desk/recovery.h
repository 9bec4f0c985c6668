// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a crash would lose, kept: a few seconds after a change the design's text is written to a file
// of the program's own (never to the person's), by a thread beside the window, whole or not at all.
// The file goes when the design is saved or closed. Those left by a process that is gone are
// offered at the next start.
//
// A journal is "<name>.journal" with "<name>.lock" held by the process that writes it: a few lines
// of "key: value", an empty line, the design's text.
#pragma once

#include <QDateTime>
#include <QLockFile>
#include <QObject>
#include <QThreadPool>
#include <QTimer>

#include <memory>
#include <optional>
#include <vector>

#include "desk/workspace.h"

namespace belvedere::desk {

// $XDG_STATE_HOME/belvedere-desk, or what stands for it.
QString stateFolder();

// A journal that its process left behind; nobody else is offered it while this is held.
struct LeftWork {
  QString journal;                 // file
  std::shared_ptr<QLockFile> lock;
  std::filesystem::path path;      // of the design; empty: was never saved
  std::filesystem::path folder;    // where its attachments lie
  std::string disk_sha256;         // of the design's file when it was read
  QString title;
  QDateTime written;
  std::string text;
};

class Recovery : public QObject {
  Q_OBJECT

 public:
  explicit Recovery(Workspace& workspace, QObject* parent = nullptr);
  ~Recovery() override;            // the design was closed: its journal goes

  static constexpr int kAfterMs = 2000;  // of the first change that is not in the journal

  std::vector<LeftWork> findLeft() const;
  // Opens what was left as not saved, and goes on with its journal. Throws InputError; the journal
  // then stays.
  void recover(LeftWork left);
  static void throwAway(const LeftWork& left);

 private:
  void take();
  void write();
  void drop();
  void claim();                    // a journal of its own

  Workspace& workspace_;
  QThreadPool writer_;             // one thread: writing and removing stay in order
  QTimer timer_;
  QString journal_;                // empty: none yet
  std::shared_ptr<QLockFile> lock_;
  bool complained_ = false;
};

}  // namespace belvedere::desk
