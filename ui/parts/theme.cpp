#include "ui/parts/theme.h"

#include <QApplication>
#include <QFontDatabase>
#include <QStyleFactory>
#include <QWidget>

#include <algorithm>
#include <array>
#include <cmath>
#include <future>
#include <memory>
#include <utility>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

const QString kFamily = u"Inter"_s;

struct Type {
    int pixels;
    QFont::Weight weight;
    qreal spacing; ///< extra pixels between letters
};

// In the order of TextRole.
constexpr std::array<Type, 11> kTypes{{
    {34, QFont::DemiBold, -0.3},
    {60, QFont::Bold, -0.5},
    {17, QFont::DemiBold, 0},
    {15, QFont::DemiBold, 0},
    {17, QFont::Normal, 0},
    {15, QFont::Normal, 0},
    {13, QFont::Normal, 0},
    {12, QFont::DemiBold, 1.4},
    {20, QFont::DemiBold, 0},
    {16, QFont::Bold, 0.4},
    {17, QFont::Normal, 0},
}};

QFont interFont()
{
    QFont font;
    font.setFamilies({kFamily, u"Noto Sans"_s, u"DejaVu Sans"_s, u"sans-serif"_s});
    font.setStyleStrategy(QFont::PreferAntialias);
    return font;
}

/// In Inter a capital I and a small l look alike.
QFont codeFont()
{
    QFont font;
    font.setFamilies({u"DejaVu Sans Mono"_s, u"Noto Sans Mono"_s, u"monospace"_s});
    font.setStyleStrategy(QFont::PreferAntialias);
    return font;
}

double linear(double channel)
{
    return channel <= 0.04045 ? channel / 12.92 : std::pow((channel + 0.055) / 1.055, 2.4);
}

double relativeLuminance(const QColor& colour)
{
    return 0.2126 * linear(colour.redF()) + 0.7152 * linear(colour.greenF()) +
           0.0722 * linear(colour.blueF());
}

QPalette paletteOf(const Tokens& t)
{
    QPalette palette;
    const std::array<std::pair<QPalette::ColorRole, QColor>, 18> roles{{
        {QPalette::Window, t.ground},
        {QPalette::WindowText, t.text},
        {QPalette::Base, t.panel},
        {QPalette::AlternateBase, t.ground},
        {QPalette::Text, t.text},
        {QPalette::PlaceholderText, t.faint},
        {QPalette::Button, t.panel},
        {QPalette::ButtonText, t.text},
        {QPalette::BrightText, t.text},
        {QPalette::Light, t.panel},
        {QPalette::Midlight, t.line},
        {QPalette::Mid, t.line},
        {QPalette::Dark, t.edge},
        {QPalette::Shadow, t.ground},
        {QPalette::Highlight, t.accent},
        {QPalette::HighlightedText, t.onAccent},
        {QPalette::ToolTipBase, t.panel},
        {QPalette::ToolTipText, t.text},
    }};
    for (const auto& [role, colour] : roles)
        palette.setColor(role, colour);
    for (const QPalette::ColorRole role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText})
        palette.setColor(QPalette::Disabled, role, t.faint);
    return palette;
}

// For Qt's own controls; the painted ones of this room take their colours from the palette. Sizes: 44 px is
// the least height of a control anywhere on the bench (WCAG 2.2, 2.5.5).
QString styleSheetOf(const Tokens& t)
{
    QString sheet = uR"(
QToolTip { background: @panel; color: @text; border: 1px solid @edge; padding: 6px 8px; }
QPushButton, QToolButton { background: @panel; color: @text; border: 1px solid @line; border-radius: 9px;
    padding: 0px 18px; min-height: 42px; font-size: 15px; }
QPushButton:hover, QToolButton:hover { border-color: @edge; }
QPushButton:pressed, QToolButton:pressed { background: @line; }
QPushButton:focus, QToolButton:focus { border: 2px solid @text; padding: 0px 17px; min-height: 40px; }
QPushButton:disabled, QToolButton:disabled { color: @faint; background: @ground; border-style: dashed; }
QPushButton:checked, QToolButton:checked { border: 2px solid @text; padding: 0px 17px; min-height: 40px; }
QPushButton[main="true"] { background: @accent; color: @onAccent; border: 1px solid @accent; font-weight: 600; }
QPushButton[main="true"]:focus { border: 2px solid @text; }
QPushButton[main="true"]:disabled { background: transparent; color: @quiet; border: 1px dashed @edge; }
QLineEdit, QAbstractSpinBox, QComboBox, QPlainTextEdit, QTextEdit { background: @panel;
    border: 1px solid @edge; border-radius: 7px; padding: 4px 10px; font-size: 16px;
    selection-background-color: @accent; selection-color: @onAccent; }
QLineEdit, QAbstractSpinBox, QComboBox { min-height: 34px; }
QLineEdit:focus, QAbstractSpinBox:focus, QComboBox:focus, QPlainTextEdit:focus, QTextEdit:focus {
    border: 2px solid @text; padding: 3px 9px; }
QLineEdit:read-only { background: @ground; border-color: @line; }
QLineEdit:disabled, QAbstractSpinBox:disabled, QComboBox:disabled { color: @faint; background: @ground; }
QComboBox { combobox-popup: 0; }
QComboBox::drop-down { border: none; width: 30px; }
QComboBox QAbstractItemView { background: @panel; color: @text; border: 1px solid @edge; }
QCheckBox, QRadioButton { spacing: 10px; min-height: 44px; font-size: 15px; }
QCheckBox::indicator, QRadioButton::indicator { width: 20px; height: 20px; border: 2px solid @edge; background: @panel; }
QCheckBox::indicator { border-radius: 5px; }
QRadioButton::indicator { border-radius: 12px; }
QCheckBox::indicator:checked, QRadioButton::indicator:checked { background: @text; border-color: @text; }
QCheckBox::indicator:focus, QRadioButton::indicator:focus { border-color: @text; }
QAbstractItemView { background: @panel; alternate-background-color: @ground; color: @text; border: 1px solid @line;
    selection-background-color: @line; selection-color: @text; outline: 0; }
QAbstractItemView::item { padding: 6px 8px; }
QAbstractItemView::item:focus { border: 2px solid @text; }
QHeaderView { background: @ground; }
QHeaderView::section { background: @ground; color: @quiet; border: none; border-bottom: 1px solid @line;
    padding: 8px; font-weight: 600; }
QTabBar::tab { background: transparent; color: @quiet; padding: 12px 18px; border: none;
    border-bottom: 2px solid transparent; }
QTabBar::tab:selected { color: @text; border-bottom-color: @text; }
QTabWidget::pane { border: none; border-top: 1px solid @line; }
QScrollArea, QScrollArea > QWidget > QWidget[bare="true"] { background: transparent; border: none; }
QScrollBar:vertical { background: transparent; width: 8px; margin: 0px; }
QScrollBar:horizontal { background: transparent; height: 8px; margin: 0px; }
QScrollBar::handle { background: @line; border-radius: 3px; min-height: 32px; min-width: 32px; margin: 1px; }
QScrollBar::handle:hover { background: @edge; }
QScrollBar::add-line, QScrollBar::sub-line { width: 0px; height: 0px; }
QScrollBar::add-page, QScrollBar::sub-page { background: transparent; }
QMenu { background: @panel; color: @text; border: 1px solid @edge; }
QMenu::item { padding: 10px 18px; }
QMenu::item:selected { background: @line; }
)"_s;
    const std::array<std::pair<QString, QColor>, 9> names{{{u"@onAccent"_s, t.onAccent},
                                                           {u"@accent"_s, t.accent},
                                                           {u"@ground"_s, t.ground},
                                                           {u"@panel"_s, t.panel},
                                                           {u"@line"_s, t.line},
                                                           {u"@edge"_s, t.edge},
                                                           {u"@text"_s, t.text},
                                                           {u"@quiet"_s, t.quiet},
                                                           {u"@faint"_s, t.faint}}};
    for (const auto& [name, colour] : names)
        sheet.replace(name, colour.name());
    return sheet;
}

} // namespace

const Tokens& tokensOf(ThemeKind kind)
{
    static const Tokens kBooth{
        QColor::fromRgb(0x12110fu), QColor::fromRgb(0x1b1916u), QColor::fromRgb(0x35312bu),
        QColor::fromRgb(0x746d61u), QColor::fromRgb(0xece5d8u), QColor::fromRgb(0xa2998au),
        QColor::fromRgb(0x8f8678u), QColor::fromRgb(0xcfe2ffu), QColor::fromRgb(0x101a2bu)};
    static const Tokens kOffice{
        QColor::fromRgb(0xf6f4efu), QColor::fromRgb(0xffffffu), QColor::fromRgb(0xd9d4cau),
        QColor::fromRgb(0x867e71u), QColor::fromRgb(0x23201bu), QColor::fromRgb(0x5f584du),
        QColor::fromRgb(0x6b6458u), QColor::fromRgb(0x274b8fu), QColor::fromRgb(0xffffffu)};
    return kind == ThemeKind::Booth ? kBooth : kOffice;
}

ThemeKind themeOf(const QPalette& palette)
{
    return palette.color(QPalette::Active, QPalette::Window).lightness() < 128 ? ThemeKind::Booth
                                                                               : ThemeKind::Office;
}

const Tokens& tokensOf(const QWidget& /*widget*/)
{
    return tokensOf(themeOf(QApplication::palette()));
}

double contrastRatio(const QColor& one, const QColor& other)
{
    const auto [darker, lighter] = std::minmax({relativeLuminance(one), relativeLuminance(other)});
    return (lighter + 0.05) / (darker + 0.05);
}

QFont fontFor(TextRole role)
{
    static const auto& kFonts = *new std::array{[] { // outlives the fonts of Qt
        std::array<QFont, kTypes.size()> fonts;
        for (std::size_t index = 0; index < kTypes.size(); ++index) {
            fonts[index] = index == static_cast<std::size_t>(TextRole::Code) ? codeFont() : interFont();
            fonts[index].setPixelSize(kTypes[index].pixels);
            fonts[index].setWeight(kTypes[index].weight);
            fonts[index].setLetterSpacing(QFont::AbsoluteSpacing, kTypes[index].spacing);
        }
        return fonts;
    }()};
    return kFonts.at(static_cast<std::size_t>(role));
}

QColor inkColour(const Tokens& tokens, Ink ink)
{
    switch (ink) {
    case Ink::Text:
        return tokens.text;
    case Ink::Quiet:
        return tokens.quiet;
    case Ink::Faint:
        return tokens.faint;
    case Ink::Accent:
        return tokens.accent;
    }
    Q_UNREACHABLE();
}

Theme::Theme(QApplication& application, QObject* parent)
    : QObject(parent)
    , m_application(application)
{
    const auto list = [] { static_cast<void>(QFontDatabase::hasFamily(kFamily)); };
    m_listing = std::make_shared<std::future<void>>(std::async(std::launch::async, list));
}

void Theme::apply(ThemeKind kind)
{
    if (m_applied && kind == m_kind)
        return;
    const bool first = !m_applied;
    m_applied = true;
    m_kind = kind;
    if (first) {
        m_application.setStyle(QStyleFactory::create(u"Fusion"_s));
        m_application.setFont(fontFor(TextRole::Small));
    }
    m_application.setPalette(paletteOf(tokensOf(kind)));
    m_application.setStyleSheet(styleSheetOf(tokensOf(kind)));
    Q_EMIT themeChanged(kind);
}

} // namespace coldarc::ui
