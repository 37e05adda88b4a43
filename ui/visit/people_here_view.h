#pragma once

#include "ui/parts/field.h"
#include "ui/parts/row_list.h"
#include "ui/visit/bench_view.h"

namespace coldarc::ui {

/// Everything that the page of who is here shows: the people at the left, the one who was chosen at the
/// right, and what is asked where something was begun.
struct PeopleHereView {
    /// What is known of the one who was chosen.
    struct Fact {
        QString label; ///< "Own lock"
        QString text;  ///< "panel B, 14"

        friend bool operator==(const Fact&, const Fact&) = default;
    };
    /// Something that this person can do, or that is done about them.
    struct Deed {
        QString id;
        QString text; ///< "B. Lind takes over from A. Okoro"
        QString sub;

        friend bool operator==(const Deed&, const Deed&) = default;
    };
    QList<RowView> people; ///< whoever leads first, whoever left last
    QString chosen;        ///< id
    QString title;
    QString sub; ///< "engineer, leads this visit"
    QList<Fact> facts;
    QList<Deed> deeds; ///< none while something is begun
    QString begun;     ///< what: a heading; empty: nothing
    QStringList words; ///< what will happen, sentence by sentence
    QList<RowView> newcomers;
    QString newcomer;        ///< id of the one who was chosen
    QString noNewcomers;     ///< said where there are none; empty while none are asked about
    QList<CaptureView> asks; ///< of `action.stepKey`
    bool asksSecret = false;
    bool asksTwice = false;
    FieldView secret;
    FieldView again;
    int emptied = 0;  ///< a change empties the boxes
    QStringList said; ///< why the last press came to nothing, or what it brought
    QString busy;     ///< what is under way; or empty
    ActionView action;

    friend bool operator==(const PeopleHereView&, const PeopleHereView&) = default;
};

} // namespace coldarc::ui
