#include "tests/support/sheet_cases.h"

#include "tests/ui/photometry/sheet_at_work.h"
#include "ui/photometry/sheet_presenter.h"

namespace coldarc::test {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using namespace coldarc::ui;

namespace {

/// Somebody who fills a sheet.
class Filling {
public:
    Filling()
        : m_presenter(m_work)
    {
        m_presenter.setLimits(shippedLimits());
    }
    void open(const QString& step)
    {
        m_work.goTo(step);
        m_work.night().clock.advance(32min);
        m_presenter.open(0);
    }
    void say(std::initializer_list<std::pair<const char16_t*, const char16_t*>> texts)
    {
        for (const auto& [id, text] : texts)
            m_presenter.setCondition(QString::fromUtf16(id), QString::fromUtf16(text));
    }
    void sayAll()
    {
        say({{u"meter", u"Spot meter 2"},
             {u"calibrated", u"2026-07-06"},
             {u"acceptance", u"1"},
             {u"position", u"middle-row"},
             {u"distance", u"13"},
             {u"format", u"Scope, white field"},
             {u"dark", u"0.02"},
             {u"watts", u"2100"},
             {u"width", u"11.5"},
             {u"aspect", u"2.39"}});
    }
    void read(const char16_t* place, const char16_t* light, const char16_t* x = u"", const char16_t* y = u"")
    {
        m_presenter.choosePoint(QString::fromUtf16(place));
        m_presenter.setTyped(QString::fromUtf16(light), QString::fromUtf16(x), QString::fromUtf16(y));
        m_presenter.enter();
    }
    void readAll()
    {
        read(u"centre", u"47.6", u"0.3152", u"0.3524");
        read(u"left", u"41.0", u"0.3149", u"0.3519");
        read(u"right", u"33.9", u"0.3158", u"0.3527");
        read(u"top-left", u"38.3", u"0.3146", u"0.3512");
        read(u"top", u"44.1", u"0.3150", u"0.3520");
        read(u"top-right", u"35.2", u"0.3163", u"0.3538");
        read(u"bottom-left", u"38.6", u"0.3148", u"0.3516");
        read(u"bottom", u"43.7", u"0.3151", u"0.3521");
        read(u"bottom-right", u"34.9", u"0.3161", u"0.3531");
    }
    [[nodiscard]] SheetPresenter& page() { return m_presenter; }
    [[nodiscard]] SheetView view() const { return m_presenter.view(); }

private:
    SheetAtWork m_work;
    SheetPresenter m_presenter;
};

SheetView filled()
{
    Filling filling;
    filling.open(u"measure-screen"_s);
    filling.sayAll();
    filling.readAll();
    filling.page().choosePoint(u"right"_s);
    return filling.view();
}

SheetView asked()
{
    Filling filling;
    filling.open(u"measure-screen"_s);
    filling.sayAll();
    filling.read(u"centre", u"14.1");
    return filling.view();
}

SheetView heldBack()
{
    Filling filling;
    filling.open(u"measure-screen"_s);
    filling.page().chooseUnit(u"fL"_s);
    filling.read(u"centre", u"13.9", u"0.3152", u"0.3524");
    filling.read(u"left", u"12.1");
    filling.page().setTyped(u"-12"_s, {}, {});
    filling.page().enter();
    return filling.view();
}

SheetView conditions()
{
    Filling filling;
    filling.open(u"measure-screen"_s);
    filling.sayAll();
    filling.say({{u"lumens", u"9100"}, {u"gain", u"1.1"}, {u"transmission", u"94"}, {u"amperes", u"a lot"}});
    filling.page().choosePanel(SheetPanel::Conditions);
    return filling.view();
}

SheetView table(const QString& text)
{
    Filling filling;
    filling.open(u"measure-screen"_s);
    filling.page().choosePanel(SheetPanel::MeterFile);
    filling.page().giveTable(text);
    return filling.view();
}

SheetView compared()
{
    Filling filling;
    filling.open(u"light-before"_s);
    filling.sayAll();
    filling.say({{u"lit", u"180"}});
    filling.read(u"centre", u"37.2");
    filling.read(u"left", u"31.0");
    filling.read(u"right", u"30.1");
    filling.page().leave();
    filling.open(u"measure-screen"_s);
    filling.say({{u"watts", u"2100"}, {u"dark", u"0.02"}});
    filling.readAll();
    filling.page().choosePanel(SheetPanel::BeforeAfter);
    return filling.view();
}

SheetView narrow()
{
    Filling filling;
    filling.open(u"measure-screen"_s);
    filling.sayAll();
    filling.say({{u"aspect", u"1.37"}});
    filling.page().chooseSet(u"digital-laboratory"_s);
    filling.readAll();
    return filling.view();
}

SheetView own()
{
    Filling filling;
    filling.open(u"measure-screen"_s);
    filling.sayAll();
    filling.page().chooseSet(u"stereo-own-target"_s);
    filling.page().setOwnLimit(u"least:centre-luminance"_s, u"17"_s);
    return filling.view();
}

SheetView fresh(const QString& step)
{
    Filling filling;
    filling.open(step);
    return filling.view();
}

} // namespace

std::vector<SheetCase> sheetCases()
{
    return {{"fresh", fresh(u"measure-screen"_s)},
            {"arrival", fresh(u"light-before"_s)},
            {"asked", asked()},
            {"filled", filled()},
            {"held-back", heldBack()},
            {"conditions", conditions()},
            {"table", table(u"Point;Lv;x;y\ncentre;47,6;0,3152;0,3524\nleft;41,0;0,3149;0,3519\n"
                            "right;40,2;0,3158;0,3527\n"_s)},
            {"bad-table", table(u"Point;Lv\ncentre;47,6\nleft;abc\nright;-4\nnowhere;40\n"_s)},
            {"compared", compared()},
            {"narrow", narrow()},
            {"own-target", own()}};
}

} // namespace coldarc::test
