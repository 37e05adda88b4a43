#pragma once

#include "core/base/words.h"
#include "core/photometry/tolerance_set.h"

namespace coldarc::photometry {

inline constexpr Words<Quantity, 11> kQuantities{
    {{Quantity::CentreLuminance, u"centre-luminance"},
     {Quantity::SideShare, u"side-share"},
     {Quantity::CornerShare, u"corner-share"},
     {Quantity::SideDifference, u"side-difference"},
     {Quantity::Nonuniformity, u"nonuniformity-percent"},
     {Quantity::WhiteX, u"white-x"},
     {Quantity::WhiteY, u"white-y"},
     {Quantity::ColourTemperature, u"colour-temperature"},
     {Quantity::CornerColourOffset, u"corner-colour-offset"},
     {Quantity::LargestColourDistance, u"largest-colour-distance"},
     {Quantity::DarkLuminance, u"dark-luminance"}}};
inline constexpr Words<Standing, 6> kStandings{{{Standing::Read, u"read"},
                                                {Standing::SecondHand, u"read-2"},
                                                {Standing::Memory, u"memory"},
                                                {Standing::Derived, u"derived"},
                                                {Standing::Practice, u"practice"},
                                                {Standing::Own, u"own"}}};
inline constexpr Words<Absence, 2> kAbsences{
    {{Absence::NotSpecified, u"not-specified"}, {Absence::Unset, u"unset"}}};
inline constexpr Words<RoomClass, 4> kClasses{{{RoomClass::Theatre, u"theatre"},
                                               {RoomClass::ReviewRoom, u"review-room"},
                                               {RoomClass::Laboratory, u"laboratory"},
                                               {RoomClass::Practice, u"practice"}}};

} // namespace coldarc::photometry
