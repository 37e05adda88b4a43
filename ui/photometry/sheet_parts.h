#pragma once

#include "ui/photometry/sheet_view.h"

#include <QMap>
#include <QWidget>

class QGridLayout;

namespace coldarc::ui {

class ComboField;
class MarkButton;
class TextLabel;

/// Every verdict: its sign, what it is about, the value, and beneath them its word, the limit and how that is
/// known.
class VerdictTable final : public QWidget {
    Q_OBJECT

public:
    explicit VerdictTable(QWidget* parent = nullptr);

    void setLines(const QList<VerdictLine>& lines);
    [[nodiscard]] bool hasHeightForWidth() const override { return true; }
    [[nodiscard]] int heightForWidth(int width) const override;
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    [[nodiscard]] int rowHeight(const VerdictLine& line, int width) const;

    QList<VerdictLine> m_lines;
};

/// Part of the x y diagram: the box of the limits, and the whites that were read. The centre's is filled.
class XyInset final : public QWidget {
    Q_OBJECT

public:
    explicit XyInset(QWidget* parent = nullptr);

    void setView(const XyView& view);
    [[nodiscard]] QSize sizeHint() const override { return {340, 210}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {220, 190}; }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    XyView m_view;
};

/// Fields in two columns; a field with answers to choose from is a box that opens.
class FormGrid final : public QWidget {
    Q_OBJECT

public:
    explicit FormGrid(QWidget* parent = nullptr);

    /// Rebuilds only where other fields come.
    void setFields(const QList<SheetField>& fields);
    /// The first field takes the focus.
    void begin();

Q_SIGNALS:
    void changed(const QString& id, const QString& text);

private:
    struct Part {
        QWidget* widget = nullptr;
        Field* field = nullptr;
        ComboField* combo = nullptr;
    };
    void rebuild(const QList<SheetField>& fields);

    QGridLayout* m_grid;
    QStringList m_ids;
    QMap<QString, Part> m_parts;
};

/// A question above its answers, which stand beside each other in so many columns. While the focus is inside,
/// the keys 1 to 9 choose. What is chosen is told by the view alone.
class ChoiceBar final : public QWidget {
    Q_OBJECT

public:
    explicit ChoiceBar(int columns, QWidget* parent = nullptr);

    void setView(const ChoiceView& view);
    /// The first answer takes the focus.
    void begin();

Q_SIGNALS:
    void choiceChanged(const QString& id);

protected:
    void keyPressEvent(QKeyEvent* event) override;

private:
    void rebuild();

    int m_columns;
    TextLabel* m_label;
    QGridLayout* m_grid;
    QList<MarkButton*> m_buttons;
    ChoiceView m_view;
};

/// A sign with its word: how the whole sheet stands.
class SignedWords final : public QWidget {
    Q_OBJECT

public:
    explicit SignedWords(QWidget* parent = nullptr);

    void setWords(SheetSign sign, const QString& words, const QString& sub);
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    SheetSign m_sign = SheetSign::Open;
    QString m_words;
    QString m_sub;
};

} // namespace coldarc::ui
