#include "ui/parts/field.h"

#include "core/base/wipe.h"
#include "ui/parts/reach.h"
#include "ui/parts/text_label.h"

#include <QHBoxLayout>
#include <QLineEdit>
#include <QSignalBlocker>
#include <QVBoxLayout>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kUnitWidth = 48;
constexpr qsizetype kMostSecret = 1024; // characters, as long as a passphrase can be

} // namespace

Field::Field(Kind kind, QWidget* parent)
    : QWidget(parent)
    , m_kind(kind)
    , m_label(new TextLabel(TextRole::Small, Ink::Quiet, this))
    , m_box(new QLineEdit(this))
    , m_unit(new TextLabel(TextRole::Small, Ink::Quiet, this))
    , m_error(new TextLabel(TextRole::Strong, Ink::Text, this))
{
    m_box->setObjectName(u"box"_s);
    m_box->setMinimumHeight(kHandTarget);
    if (kind == Kind::Number)
        m_box->setInputMethodHints(Qt::ImhFormattedNumbersOnly);
    if (kind == Kind::Secret) {
        m_box->setEchoMode(QLineEdit::Password);
        makeRoom();
    }
    m_error->setObjectName(u"error"_s);
    for (TextLabel* empty : {m_label, m_unit, m_error})
        empty->hide(); // until there is something to say
    m_unit->setOverflow(TextLabel::Overflow::Elides);
    m_unit->setAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    m_unit->setMinimumWidth(kUnitWidth); // so that boxes above each other are of one length
    setFocusProxy(m_box);

    auto* row = new QHBoxLayout;
    row->setSpacing(8);
    row->addWidget(m_box, 1);
    row->addWidget(m_unit);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(5);
    column->addWidget(m_label);
    column->addLayout(row);
    column->addWidget(m_error);

    connect(m_box, &QLineEdit::textEdited, this, &Field::valueChanged);
    connect(m_box, &QLineEdit::editingFinished, this, &Field::editingFinished);
}

// A box that has the focus says that it was left while it is being destroyed; this is no longer a Field then.
Field::~Field()
{
    m_box->disconnect(this);
    if (m_kind == Kind::Secret)
        wipe();
}

void Field::wipe()
{
    const QSignalBlocker quiet(m_box);
    QString text = m_box->text(); // the box's own characters, which are shared
    coldarc::wipe(text);
    // What can be undone is kept letter by letter: others are written over those, and not laid out for
    // nobody.
    m_box->setEchoMode(QLineEdit::NoEcho);
    m_box->setText(QString());
    m_box->insert(QString(kMostSecret, u' '));
    m_box->setText(QString());
    makeRoom();
    m_box->setEchoMode(QLineEdit::Password);
}

/// Room for a whole secret, so that no beginning of one is left behind where it lay while it grew.
void Field::makeRoom()
{
    QString room;
    room.reserve(kMostSecret);
    room.append(u' ');
    m_box->setText(room);
    room.clear();
    m_box->backspace();
}

void Field::setView(const FieldView& view)
{
    if (view == m_view)
        return;
    if (view.value != m_view.value && view.value != m_box->text())
        m_box->setText(view.value); // what stands there already stays, and the cursor with it
    m_view = view;
    m_label->setText(view.label);
    m_label->setVisible(!view.label.isEmpty());
    m_unit->setText(view.unit);
    m_unit->setVisible(!view.unit.isEmpty());
    m_box->setPlaceholderText(view.hint);
    m_box->setAccessibleName(view.unit.isEmpty() ? view.label : u"%1, %2"_s.arg(view.label, view.unit));
    m_box->setAccessibleDescription(view.error);
    m_error->setText(view.error);
    m_error->setVisible(!view.error.isEmpty());
}

QString Field::value() const
{
    return m_box->text();
}

QHBoxLayout* besides(QWidget* left, QWidget* right)
{
    auto* row = new QHBoxLayout;
    row->setSpacing(16);
    row->addWidget(left, 1, Qt::AlignTop);
    row->addWidget(right, 1, Qt::AlignTop);
    return row;
}

} // namespace coldarc::ui
