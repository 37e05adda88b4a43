#include "ui/photometry/sheet_at_page.h"

#include "ui/photometry/sheet_page.h"
#include "ui/photometry/sheet_presenter.h"

namespace coldarc::ui {

namespace {

SheetPresenter::Toward towardOf(Qt::Key arrow)
{
    switch (arrow) {
    case Qt::Key_Left:
        return SheetPresenter::Toward::Left;
    case Qt::Key_Right:
        return SheetPresenter::Toward::Right;
    case Qt::Key_Up:
        return SheetPresenter::Toward::Up;
    default:
        return SheetPresenter::Toward::Down;
    }
}

} // namespace

void connectSheetPage(SheetPresenter& presenter, SheetPage& page)
{
    const auto hear = [&](auto signal, auto slot) { QObject::connect(&page, signal, &presenter, slot); };
    QObject::connect(&presenter, &SheetPresenter::viewChanged, &page, &SheetPage::setView);
    hear(&SheetPage::pointChosen, &SheetPresenter::choosePoint);
    hear(&SheetPage::moved, [&presenter](Qt::Key arrow) { presenter.move(towardOf(arrow)); });
    hear(&SheetPage::typed, &SheetPresenter::setTyped);
    hear(&SheetPage::entered, &SheetPresenter::enter);
    hear(&SheetPage::answered, &SheetPresenter::answer);
    hear(&SheetPage::takeBackRequested, &SheetPresenter::takeBack);
    hear(&SheetPage::unitChosen, &SheetPresenter::chooseUnit);
    hear(&SheetPage::panelChosen, &SheetPresenter::choosePanel);
    hear(&SheetPage::setChosen, &SheetPresenter::chooseSet);
    hear(&SheetPage::ownLimitTyped, &SheetPresenter::setOwnLimit);
    hear(&SheetPage::conditionTyped, &SheetPresenter::setCondition);
    hear(&SheetPage::tableGiven, &SheetPresenter::giveTable);
    hear(&SheetPage::fileGiven, &SheetPresenter::giveFile);
    hear(&SheetPage::tableMapped, &SheetPresenter::mapTable);
    hear(&SheetPage::tableTaken, &SheetPresenter::takeTable);
    hear(&SheetPage::tableAnswered, &SheetPresenter::answerTable);
    hear(&SheetPage::doneRequested, &SheetPresenter::done);
    hear(&SheetPage::oweRequested, &SheetPresenter::owe);
    hear(&SheetPage::leaveRequested, &SheetPresenter::leave);
}

} // namespace coldarc::ui
