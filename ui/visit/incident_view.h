#pragma once

#include "ui/visit/bench_view.h"

namespace coldarc::ui {

/// Everything that the page of what went wrong shows: the list, or the short path of one.
struct IncidentView {
    struct Kind {
        int id = 0;
        QString name;
        bool isWorst = false; ///< stands first: people

        friend bool operator==(const Kind&, const Kind&) = default;
    };
    /// One that happened and that nobody answered yet.
    struct Open {
        qint64 entry = 0;
        QString name;
        QString when; ///< "13:02"

        friend bool operator==(const Open&, const Open&) = default;
    };
    QString place;
    QList<Kind> kinds;
    QList<Open> open;
    int chosen = -1; ///< id of a kind, or -1: the list is shown
    QString title;
    QStringList nowDo;
    QList<CaptureView> asks;
    QStringList said; ///< why the last press came to nothing
    ActionView action;

    friend bool operator==(const IncidentView&, const IncidentView&) = default;
};

} // namespace coldarc::ui
