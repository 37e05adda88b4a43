#include "ui/label/picture_presenter.h"

#include "ui/label/words_picture.h"

#include <algorithm>
#include <memory>

namespace coldarc::ui {

PicturePresenter::PicturePresenter(DecodingProcess& process, Behind behind,
                                   QList<catalogue::LampType> lampTypes, int currentYear, QObject* parent)
    : QObject(parent)
    , m_process(process)
    , m_behind(std::move(behind))
    , m_lampTypes(std::move(lampTypes))
    , m_currentYear(currentYear)
{
    m_view.says = wordsNoPictureYet();
    connect(&m_process, &DecodingProcess::decoded, this, &PicturePresenter::decoded);
    connect(&m_process, &DecodingProcess::failed, this,
            [this](DecodingProcess::Failure failure) { unread(wordsOf(failure)); });
}

void PicturePresenter::look(const PictureSource& source)
{
    m_process.cancel();
    m_picture = {};
    m_scanned.clear();
    PictureView view;
    view.says = wordsLooking();
    view.isBusy = true;
    show(view);
    const int asked = ++m_asked;
    const auto ready = std::make_shared<LabelPicture>();
    m_behind([ready, source] { *ready = labelPicture(source); },
             [this, ready, asked] {
                 if (asked == m_asked)
                     made(*ready);
             });
}

void PicturePresenter::clear()
{
    m_process.cancel();
    ++m_asked;
    m_picture = {};
    m_scanned.clear();
    PictureView view;
    view.says = wordsNoPictureYet();
    show(view);
}

void PicturePresenter::pick(int code)
{
    if (code < 0 || code >= m_view.codes.size() || !m_view.codes.at(code).canBePicked)
        return;
    PictureView view = m_view;
    view.picked = code;
    show(view);
    Q_EMIT picked(m_scanned.value(code), m_picture);
}

void PicturePresenter::made(const LabelPicture& picture)
{
    m_scanned.clear();
    PictureView view;
    view.says = m_view.says;
    view.picture = picture.shown;
    view.isBusy = !picture.whole.isEmpty();
    if (picture.whole.isEmpty()) {
        view.says = wordsNoPicture(picture);
        show(view);
        return;
    }
    m_picture = picture;
    show(view);
    m_process.decode(picture.whole);
}

void PicturePresenter::decoded(const label::PictureReading& reading)
{
    if (reading == label::PictureReading())
        return unread(wordsPictureUnread());
    m_scanned.clear();
    PictureView view;
    view.picture = m_view.picture;
    for (const label::FoundCode& code : reading.codes) {
        const label::Payload payload = label::readPayload(code.scanned, m_currentYear);
        const label::LabelText text = label::labelText(payload, m_lampTypes);
        m_scanned.append(code.scanned);
        PictureCode shown;
        for (const label::Place& corner : code.corners)
            shown.corners << QPointF(corner.x / reading.width, corner.y / reading.height);
        shown.words = wordsOf(text, payload);
        shown.canBePicked = text.verdict == label::LabelText::Verdict::Read;
        view.codes.append(shown);
        if (text.verdict == label::LabelText::Verdict::Unknown)
            Q_EMIT unknownFound(code.scanned);
    }
    const auto canBePicked = std::ranges::count_if(view.codes, &PictureCode::canBePicked);
    view.says = wordsOfCodes(view.codes.size(), canBePicked);
    show(view);
}

void PicturePresenter::unread(const QString& says)
{
    m_scanned.clear();
    PictureView view;
    view.picture = m_view.picture;
    view.says = says;
    show(view);
}

void PicturePresenter::show(PictureView view)
{
    if (view == m_view)
        return;
    m_view = std::move(view);
    Q_EMIT viewChanged(m_view);
}

} // namespace coldarc::ui
