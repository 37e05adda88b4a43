#pragma once

#include "tests/support/fake_clock.h"
#include "ui/visit/visit_page.h"

#include <QApplication>
#include <QTest>

namespace coldarc::test {

/// What somebody types at the widget with the focus: no scanner is as slow.
inline void typeByHand(ui::VisitPage& page, FakeClock& clock, const QString& text)
{
    using namespace std::chrono_literals;
    for (const QChar letter : text) {
        clock.advance(120ms);
        QTest::keyClicks(QApplication::focusWidget(), letter);
    }
    clock.advance(120ms);
    page.scanner().lookAgain();
}

/// A key of somebody's, and the pause behind it.
inline void pressByHand(ui::VisitPage& page, FakeClock& clock, QWidget* at, Qt::Key key,
                        Qt::KeyboardModifiers with = Qt::NoModifier)
{
    using namespace std::chrono_literals;
    QTest::keyClick(at, key, with);
    clock.advance(120ms);
    page.scanner().lookAgain();
}

} // namespace coldarc::test
