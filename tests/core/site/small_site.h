#pragma once

#include "core/site/site.h"

namespace coldarc::site::test {

/// An invented site: screen 1 with a projector of two lamphouses, screen 2 with one of one. Panel A, 11 feeds
/// both lamphouses of screen 1, A, 12 the second of them alone, B, 14 that of screen 2.
[[nodiscard]] inline SiteDocument smallSite()
{
    using namespace Qt::StringLiterals;
    using catalogue::RoleId;
    const auto at = [](qint64 hours) { return WallTime(std::chrono::hours(hours)); };
    const Feed leftMain{LamphouseId(u"lh-left"_s), RoleId(u"main"_s)};
    const Feed rightMain{LamphouseId(u"lh-right"_s), RoleId(u"main"_s)};
    const Feed rightIgniter{LamphouseId(u"lh-right"_s), RoleId(u"igniter"_s)};
    const Feed singleMain{LamphouseId(u"lh-single"_s), RoleId(u"main"_s)};
    SiteDocument document;
    document.site = {SiteId(u"site-1"_s),
                     u"Pier Street"_s,
                     u"Inventedtown"_s,
                     {{u"Cy Invented"_s, u"duty manager"_s, u"0100 200"_s}, {u"Di Invented"_s, {}, {}}},
                     {AbsenceProver::Electrician, u"sign the book at the door"_s, u"red padlocks"_s}};
    document.screens = {{ScreenId(u"sc-1"_s), u"Screen 1"_s, 84.5, {at(30), at(20), at(26)}},
                        {ScreenId(u"sc-2"_s), u"Screen 2"_s, std::nullopt, {at(20), at(23)}}};
    document.projectors = {{ProjectorId(u"pr-1"_s), ModelId(u"double"_s), ScreenId(u"sc-1"_s), u"front"_s},
                           {ProjectorId(u"pr-2"_s), ModelId(u"single"_s), ScreenId(u"sc-2"_s), {}}};
    document.lamphouses = {
        {LamphouseId(u"lh-left"_s), ProjectorId(u"pr-1"_s), u"left"_s, LampId(u"lamp-1"_s)},
        {LamphouseId(u"lh-right"_s), ProjectorId(u"pr-1"_s), u"right"_s, std::nullopt},
        {LamphouseId(u"lh-single"_s), ProjectorId(u"pr-2"_s), u"lamp"_s, std::nullopt}};
    document.points = {{PointId(u"pt-a11"_s), u"A"_s, u"11"_s, u"panel A, 11"_s, true, {leftMain, rightMain}},
                       {PointId(u"pt-a12"_s), u"A"_s, u"12"_s, u"panel A, 12"_s, false, {rightIgniter}},
                       {PointId(u"pt-b14"_s), u"B"_s, u"14"_s, u"panel B, 14"_s, true, {singleMain}}};
    return document;
}

} // namespace coldarc::site::test
