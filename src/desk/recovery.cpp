// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/recovery.h"

#include <QCoreApplication>
#include <QDir>
#include <QFile>
#include <QSaveFile>
#include <QStandardPaths>
#include <QUuid>

#include "base/problem.h"
#include "design/write.h"

namespace belvedere::desk {
namespace {

const QByteArray kFirstLine = "belvedere-desk journal 1";

QString lockOf(const QString& journal) {
  return journal.left(journal.size() - 8) + ".lock";  // in place of ".journal"
}

// Values are percent-encoded: a path may hold a line's end.
QByteArray line(const char* key, const QByteArray& value) {
  return QByteArray(key) + ": " + value.toPercentEncoding(" /") + "\n";
}

std::optional<LeftWork> readJournal(const QString& path) {
  QFile file(path);
  if (!file.open(QIODevice::ReadOnly) || file.readLine().trimmed() != kFirstLine) return std::nullopt;
  LeftWork left;
  left.journal = path;
  while (!file.atEnd()) {
    const QByteArray read = file.readLine();
    if (read == "\n") {
      left.text = file.readAll().toStdString();
      return left.text.empty() ? std::nullopt : std::optional(std::move(left));
    }
    const qsizetype colon = read.indexOf(": ");
    if (colon < 0) return std::nullopt;
    const QByteArray key = read.left(colon);
    const QByteArray value = QByteArray::fromPercentEncoding(read.mid(colon + 2).chopped(1));
    if (key == "path") left.path = value.toStdString();
    if (key == "folder") left.folder = value.toStdString();
    if (key == "disk") left.disk_sha256 = value.toStdString();
    if (key == "title") left.title = QString::fromUtf8(value);
    if (key == "written") left.written = QDateTime::fromString(QString::fromUtf8(value), Qt::ISODate);
  }
  return std::nullopt;
}

}  // namespace

QString stateFolder() {
  QString state = qEnvironmentVariable("XDG_STATE_HOME");
  if (state.isEmpty() || !QDir::isAbsolutePath(state)) state = QDir::homePath() + "/.local/state";
  return state + "/belvedere-desk";
}

Recovery::Recovery(Workspace& workspace, QObject* parent) : QObject(parent), workspace_(workspace) {
  writer_.setMaxThreadCount(1);
  timer_.setSingleShot(true);
  timer_.setInterval(kAfterMs);
  connect(&timer_, &QTimer::timeout, this, &Recovery::write);
  connect(&workspace_, &Workspace::designChanged, this, &Recovery::take);
  connect(&workspace_, &Workspace::savedChanged, this, &Recovery::take);
  connect(&workspace_, &Workspace::opened, this, [this] { drop(); });
}

Recovery::~Recovery() {
  drop();
  writer_.waitForDone();
}

void Recovery::take() {
  if (workspace_.isSaved()) {
    drop();
  } else if (!timer_.isActive()) {  // never put off: a hand that does not rest is kept too
    timer_.start();
  }
}

void Recovery::claim() {
  if (!journal_.isEmpty()) return;
  const QString folder = stateFolder();
  QDir().mkpath(folder);
  QFile::setPermissions(folder, QFile::ReadOwner | QFile::WriteOwner | QFile::ExeOwner);
  journal_ = folder + "/" + QUuid::createUuid().toString(QUuid::WithoutBraces) + ".journal";
  lock_ = std::make_shared<QLockFile>(lockOf(journal_));
  lock_->setStaleLockTime(0);
  lock_->tryLock(0);
}

void Recovery::write() {
  if (workspace_.isSaved()) return;
  claim();
  QByteArray head = kFirstLine + "\n";
  head += line("path", QByteArray::fromStdString(workspace_.path().string()));
  head += line("folder", QByteArray::fromStdString(workspace_.folder().string()));
  head += line("disk", QByteArray::fromStdString(workspace_.file().sha256));
  head += line("title", QByteArray::fromStdString(workspace_.design().title));
  head += line("written", QDateTime::currentDateTime().toString(Qt::ISODate).toUtf8());
  writer_.start([this, head, journal = journal_, design = workspace_.shareDesign(),
                 source = workspace_.file().source] {
    design::DesignFile whole;
    whole.design = *design;
    whole.source = source;
    const std::string text = design::writeDesign(whole);
    QSaveFile file(journal);
    const bool good = file.open(QIODevice::WriteOnly) && file.write(head + "\n") > 0 &&
                      file.write(text.data(), static_cast<qint64>(text.size())) >= 0 && file.commit();
    if (good) return;
    QMetaObject::invokeMethod(this, [this, why = file.errorString()] {
      if (complained_) return;
      complained_ = true;
      workspace_.complain(
          tr("Changes are not kept for recovery: %1 (%2). Save often.").arg(why, stateFolder()));
    });
  });
}

void Recovery::drop() {
  timer_.stop();
  if (journal_.isEmpty()) return;
  writer_.start([journal = journal_, lock = lock_] {
    QFile::remove(journal);
    lock->unlock();
  });
  journal_.clear();
  lock_.reset();
}

std::vector<LeftWork> Recovery::findLeft() const {
  std::vector<LeftWork> all;
  const QDir folder(stateFolder());
  for (const QString& name : folder.entryList({"*.journal"}, QDir::Files, QDir::Time)) {
    const QString path = folder.filePath(name);
    auto lock = std::make_shared<QLockFile>(lockOf(path));
    lock->setStaleLockTime(0);
    if (path == journal_ || !lock->tryLock(0)) continue;  // its process lives
    if (std::optional<LeftWork> left = readJournal(path)) {
      left->lock = std::move(lock);
      all.push_back(std::move(*left));
    }
  }
  return all;
}

void Recovery::recover(LeftWork left) {
  design::DesignFile file = design::readDesignText(left.text, left.folder);
  file.path = left.path;
  file.sha256 = left.disk_sha256;
  workspace_.recover(std::move(file), left.folder);
  journal_ = left.journal;  // it is this process's from now on
  lock_ = left.lock;
}

void Recovery::throwAway(const LeftWork& left) {
  QFile::remove(left.journal);
  left.lock->unlock();
}

}  // namespace belvedere::desk
