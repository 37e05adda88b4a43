#include "ui/label/scanner_presenter.h"

#include "ui/label/words_picture.h"

#include <QCoreApplication>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr qsizetype kMostPairs = 6;

QString words(const char* text)
{
    return QCoreApplication::translate("scanner", text);
}

QString layoutWords(const QList<label::OtherCharacter>& others)
{
    QStringList pairs;
    for (const label::OtherCharacter& one : others.first(std::min(kMostPairs, others.size())))
        pairs << words("%1 came as %2").arg(one.inCode, visibleText(QString(one.came)));
    if (others.size() > kMostPairs)
        pairs << words("and %1 more").arg(others.size() - kMostPairs);
    return words(
               "Another keyboard layout: %1. Set the scanner to the layout of this computer, or to one that "
               "sends characters by their number.")
        .arg(pairs.join(u", "_s));
}

} // namespace

ScannerView wordsOf(const label::SetUpVerdict& verdict, const QString& scanned)
{
    ScannerView view;
    view.came = words("It sent: %1").arg(visibleText(scanned));
    if (verdict.isCutOff)
        view.change << words(
            "It did not send the code as it is: scan again. If that stays so, let it send Enter "
            "behind a code, nothing else in front or behind, and a little slower.");
    if (verdict.swapsCase)
        view.change << words("Capitals and small letters are exchanged: switch the capitals lock off.");
    if (!verdict.others.isEmpty())
        view.change << layoutWords(verdict.others);
    if (!verdict.keepsSeparator && !verdict.isCutOff)
        view.change << words(
            "The separator between two values gets lost, and they run together: let the scanner "
            "send the group separator (GS, ASCII 29) for FNC1.");
    if (!verdict.saysSymbology)
        view.change << words(
            "It does not say what kind of code it read: let it send the AIM identifier in front. "
            "Until then what it scans counts as typed.");
    view.title = !verdict.isUsable() ? words("This scanner is not to be trusted with labels yet.")
                 : verdict.saysSymbology
                     ? words("All is well: kind of code, separator and every character come "
                             "through.")
                     : words("Every character comes through, the kind of code does not.");
    return view;
}

ScannerPresenter::ScannerPresenter(QObject* parent)
    : QObject(parent)
{
    begin();
}

void ScannerPresenter::begin()
{
    ScannerView view;
    view.title = words("Scan this code.");
    view.change = {
        words("If nothing comes of it, print the code and scan the paper; if letters show up one by "
              "one elsewhere, the scanner sends too slowly.")};
    show(view);
}

void ScannerPresenter::hear(const QString& scanned)
{
    show(wordsOf(label::setUpVerdict(scanned), scanned));
}

void ScannerPresenter::show(ScannerView view)
{
    if (view == m_view)
        return;
    m_view = std::move(view);
    Q_EMIT viewChanged(m_view);
}

} // namespace coldarc::ui
