// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/catalogue_page.h"

#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QMimeData>
#include <QTableWidget>
#include <QVBoxLayout>

#include <algorithm>
#include <set>

#include "design/words.h"
#include "desk/colours.h"
#include "desk/list_look.h"
#include "desk/model_drop.h"
#include "desk/room_words.h"

namespace belvedere::desk {
namespace {

QString text(std::string_view words) {
  return QString::fromUtf8(words.data(), static_cast<qsizetype>(words.size()));
}

int usesOf(const design::Design& design, const design::ModelId& id) {
  int uses = 0;
  for (const design::Housing& housing : design.housings)
    uses += (housing.model == id) + (housing.mount.model == id);
  for (const design::Device& device : design.services.devices) uses += device.model == id;
  for (const design::Link& link : design.services.links) uses += link.cable == id;
  return uses;
}

// Its rows of housings can be dragged onto the plan.
class ModelsTable : public QTableWidget {
 public:
  static constexpr int kModel = Qt::UserRole;

 protected:
  QStringList mimeTypes() const override { return {kModelMime}; }
  QMimeData* mimeData(const QList<QTableWidgetItem*>& items) const override {
    if (items.isEmpty()) return nullptr;
    auto* dragged = new QMimeData;
    dragged->setData(kModelMime, items.front()->data(kModel).toString().toUtf8());
    return dragged;
  }
};

QTableWidget* tableNamed(const QString& object, const QString& name) {
  auto* table = new ModelsTable;
  table->setObjectName(object);
  table->setAccessibleName(name);
  setListLook(*table);
  table->setEditTriggers(QAbstractItemView::NoEditTriggers);
  return table;
}

}  // namespace

CataloguePage::CataloguePage(Workspace& workspace) : workspace_(workspace) {
  setObjectName("catalogue");
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(6);
  filter_ = new QLineEdit;
  filter_->setObjectName("catalogue.filter");
  filter_->setPlaceholderText(tr("Filter: words, or a property: capacity/ports>=8"));
  filter_->setAccessibleName(tr("Filter of the catalogue"));
  filter_->setClearButtonEnabled(true);
  column->addWidget(filter_);
  says_ = new QLabel;
  says_->setObjectName("catalogue.says");
  says_->setWordWrap(true);
  says_->setForegroundRole(QPalette::Dark);
  column->addWidget(says_);
  table_ = tableNamed("catalogue.models", tr("Models of the catalogue"));
  table_->setSelectionMode(QAbstractItemView::ExtendedSelection);
  table_->setDragDropMode(QAbstractItemView::DragOnly);
  column->addWidget(table_, 1);
  compared_ = tableNamed("catalogue.compared", tr("Selected models side by side"));
  compared_->setSelectionMode(QAbstractItemView::SingleSelection);
  compared_->horizontalHeader()->setStretchLastSection(false);
  compared_->hide();
  column->addWidget(compared_, 1);
  setFocusProxy(table_);
  connect(filter_, &QLineEdit::textChanged, this, &CataloguePage::list);
  connect(table_, &QTableWidget::itemSelectionChanged, this, &CataloguePage::compare);
  connect(table_, &QTableWidget::cellActivated, this, &CataloguePage::selectUsers);
  connect(table_, &QTableWidget::cellDoubleClicked, this, &CataloguePage::selectUsers);
  connect(&workspace_, &Workspace::designChanged, this, &CataloguePage::take);
}

void CataloguePage::showEvent(QShowEvent* event) {
  take();
  QWidget::showEvent(event);
}

void CataloguePage::take() {
  if (!isVisible() || workspace_.isDragging()) return;
  const auto design = workspace_.shareDesign();
  const bool same = models_of_ && models_of_->catalogue == design->catalogue &&
                    models_of_->library == design->library &&
                    models_of_->housings.size() == design->housings.size();
  if (same) return;
  models_of_ = design;
  models_.clear();
  for (const design::Model& model : design->catalogue.models)
    models_.push_back({&model, design::propertiesOf(model)});
  for (const design::Model& model : design->library)
    models_.push_back({&model, design::propertiesOf(model)});
  list();
}

void CataloguePage::list() {
  if (!models_of_) return;
  const QString words = filter_->text().trimmed();
  const auto test = design::propertyTest(words.toStdString());
  rows_.clear();
  for (std::size_t i = 0; i < models_.size(); ++i) {
    const Listed& listed = models_[i];
    const bool shown =
        words.isEmpty() ||
        (test ? design::passes(listed.properties, *test)
              : std::any_of(listed.properties.begin(), listed.properties.end(), [&](const auto& p) {
                  return text(p.second).contains(words, Qt::CaseInsensitive);
                }));
    if (shown) rows_.push_back(i);
  }
  const QSignalBlocker blocked(table_);
  table_->clear();
  table_->setColumnCount(5);
  table_->setHorizontalHeaderLabels(
      {tr("Model"), tr("kind"), tr("maker"), tr("price"), tr("used")});
  table_->setRowCount(static_cast<int>(rows_.size()));
  for (std::size_t row = 0; row < rows_.size(); ++row) {
    const design::Model& model = *models_[rows_[row]].model;
    const int uses = usesOf(*models_of_, model.id);
    const QString cells[] = {
        text(model.title.empty() ? model.id.text : model.title), roomWord(design::word(model.kind)),
        text(model.maker), model.price ? QString::number(*model.price, 'f', 2) : QStringLiteral("–"),
        uses > 0 ? QString::number(uses) : QStringLiteral("–")};
    for (int column = 0; column < 5; ++column) {
      auto* item = new QTableWidgetItem(cells[column]);
      const bool hangs = model.kind == design::ModelKind::housing && !model.imagers.empty();
      item->setToolTip(hangs ? tr("%1; drag it onto the plan").arg(text(model.id.text)) : text(model.id.text));
      item->setData(ModelsTable::kModel, text(model.id.text));
      item->setFlags(item->flags().setFlag(Qt::ItemIsDragEnabled, hangs));
      if (column >= 3) item->setTextAlignment(Qt::AlignRight | Qt::AlignVCenter);
      table_->setItem(static_cast<int>(row), column, item);
    }
  }
  table_->resizeColumnsToContents();
  says_->setText(models_.empty() ? tr("The design names no catalogue: its file does so, under catalogue.")
                 : rows_.empty() ? tr("No model passes the filter.")
                                 : tr("%n models. Select several to see them side by side.", nullptr,
                                      static_cast<int>(rows_.size())));
  compare();
}

// Properties in which they differ first come in ink, the others quiet.
void CataloguePage::compare() {
  std::vector<std::size_t> chosen;
  for (const QModelIndex& index : table_->selectionModel()->selectedRows())
    if (index.row() < static_cast<int>(rows_.size()))
      chosen.push_back(rows_[static_cast<std::size_t>(index.row())]);
  compared_->setVisible(!chosen.empty());
  compared_->clear();
  if (chosen.empty()) return;
  QStringList headings{tr("Property")};
  std::vector<std::string> names;
  for (const std::size_t i : chosen) {
    headings << text(models_[i].model->id.text);
    for (const auto& [name, cell] : models_[i].properties)
      if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  }
  compared_->setColumnCount(static_cast<int>(chosen.size()) + 1);
  compared_->setHorizontalHeaderLabels(headings);
  compared_->setRowCount(static_cast<int>(names.size()));
  const QColor quiet = colourOf(inksOf(palette()).quiet);
  for (std::size_t row = 0; row < names.size(); ++row) {
    std::vector<QString> cells;
    for (const std::size_t i : chosen) {
      const auto& properties = models_[i].properties;
      const auto at = std::find_if(properties.begin(), properties.end(),
                                   [&](const auto& p) { return p.first == names[row]; });
      cells.push_back(at == properties.end() ? QStringLiteral("–") : text(at->second));
    }
    const bool differ = std::set<QString>(cells.begin(), cells.end()).size() > 1;
    cells.insert(cells.begin(), text(names[row]));
    for (std::size_t column = 0; column < cells.size(); ++column) {
      auto* item = new QTableWidgetItem(cells[column]);
      item->setToolTip(cells[column]);
      if (!differ && chosen.size() > 1) item->setForeground(quiet);
      compared_->setItem(static_cast<int>(row), static_cast<int>(column), item);
    }
  }
  compared_->resizeColumnsToContents();
}

void CataloguePage::selectUsers(int row) {
  if (row < 0 || row >= static_cast<int>(rows_.size())) return;
  const design::ModelId id = models_[rows_[static_cast<std::size_t>(row)]].model->id;
  edit::Selection users;
  for (const design::Housing& housing : workspace_.design().housings)
    if (housing.model == id || housing.mount.model == id)
      users.push_back({edit::ObjectKind::housing, housing.id.text, 0});
  for (const design::Device& device : workspace_.design().services.devices)
    if (device.model == id) users.push_back({edit::ObjectKind::device, device.id.text, 0});
  if (users.empty()) {
    workspace_.tell(tr("Nothing in the design is of the model %1.").arg(text(id.text)));
    return;
  }
  workspace_.select(std::move(users));
}

}  // namespace belvedere::desk
