#pragma once

#include <QString>
#include <QWidget>

class QHBoxLayout;
class QLineEdit;

namespace coldarc::ui {

class TextLabel;

/// Something that is typed, scanned or pasted.
struct FieldView {
    QString label;
    QString value;
    QString unit;  ///< after the box: "h", "cd/m²"; or empty
    QString hint;  ///< shown in the empty box
    QString error; ///< what is wrong with the value and what would be right; or empty

    friend bool operator==(const FieldView&, const FieldView&) = default;
};

/// A label, a box and, beneath it, what is wrong with what stands in it. A new view replaces the text only
/// when its value differs from that of the view before, so that a refresh does not eat what is being typed.
class Field final : public QWidget {
    Q_OBJECT

public:
    enum class Kind {
        Text,
        Number, ///< asks an on-screen keyboard for figures; anything can still be typed, and is judged
                ///< elsewhere
        Secret, ///< shows dots
    };

    explicit Field(Kind kind = Kind::Text, QWidget* parent = nullptr);
    ~Field() override;

    void setView(const FieldView& view);
    [[nodiscard]] QString value() const;
    /// Empties the box, and overwrites what stood in it as far as Qt lets one.
    void wipe();
    [[nodiscard]] QLineEdit* box() const { return m_box; }

Q_SIGNALS:
    void valueChanged(const QString& value);
    /// Enter was pressed in the box, or it lost the focus.
    void editingFinished();

private:
    void makeRoom();

    Kind m_kind;
    TextLabel* m_label;
    QLineEdit* m_box;
    TextLabel* m_unit;
    TextLabel* m_error;
    FieldView m_view;
};

/// Two of them in a row; what is wrong with one moves the other nowhere.
[[nodiscard]] QHBoxLayout* besides(QWidget* left, QWidget* right);

} // namespace coldarc::ui
