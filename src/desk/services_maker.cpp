// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/services_maker.h"

#include <utility>

#include "base/problem.h"
#include "requirements/prove.h"
#include "services/findings.h"

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

proof::ProveOptions provingOptions() {
  proof::ProveOptions options;
  options.blind_zones = false;
  return options;
}

}  // namespace

// ---- sizes --------------------------------------------------------------------------------------

ServicesMaker::ServicesMaker(QObject* parent)
    : QObject(parent),
      thread_([this](const Job& job) { orSay(this, [&] { make(job); }); },
              [this] { inWindowOf(this, [this] { Q_EMIT rested(); }); }) {}

void ServicesMaker::wish(ServicesWish wish) { thread_.wish({std::move(wish), now_}); }

void ServicesMaker::make(const Job& job) {
  auto made = std::make_shared<ServicesAnswer>();
  made->version = job.wish.version;
  made->design = job.wish.design;
  if (job.wish.dragging && job.before)
    made->seen = job.before->seen;
  else
    made->seen.rules = requirements::ruleDemands(*made->design, job.wish.folder, provingOptions(),
                                                 thread_.progress);
  made->sizes = services::sizesOf(*made->design, made->seen, thread_.progress);
  made->findings = services::findingsOf(*made->design, made->sizes, made->seen);
  inWindowOf(this, [this, made = std::shared_ptr<const ServicesAnswer>(std::move(made))] {
    now_ = made;
    Q_EMIT this->made();
  });
}

// ---- failures -----------------------------------------------------------------------------------

FailuresMaker::FailuresMaker(QObject* parent)
    : QObject(parent),
      thread_([this](const ServicesWish& wish) { orSay(this, [&] { make(wish); }); },
              [this] { inWindowOf(this, [this] { Q_EMIT rested(); }); }) {
  thread_.progress.report = [this](double share, std::string_view what) {
    const QString words = QString::fromUtf8(what.data(), static_cast<qsizetype>(what.size()));
    inWindowOf(this, [this, share, words] { Q_EMIT progressed(share, words); });
  };
}

void FailuresMaker::wish(ServicesWish wish) { thread_.wish(std::move(wish)); }

void FailuresMaker::make(const ServicesWish& wish) {
  auto made = std::make_shared<FailuresAnswer>();
  made->version = wish.version;
  made->design = wish.design;
  proof::ProveOptions options = provingOptions();
  options.keep_settled = true;
  // The proof as designed, then what changes with each part.
  const Progress proving = partOf(thread_.progress, 0, 0.5), losing = partOf(thread_.progress, 0.5, 1);
  made->proven = requirements::size(*made->design, wish.folder, true, options, proving);
  made->failures =
      requirements::failuresOf(*made->design, wish.folder, made->proven, options, losing);
  inWindowOf(this, [this, made = std::shared_ptr<const FailuresAnswer>(std::move(made))] {
    now_ = made;
    Q_EMIT this->made();
  });
}

}  // namespace belvedere::desk
