#pragma once

#include "core/catalogue/words.h"
#include "core/procedure/procedure.h"

namespace coldarc::procedure {

using catalogue::Words;

inline constexpr Words<Phase, 10> kPhases{{{Phase::Arrive, u"arrive"},
                                           {Phase::ColdAndDead, u"cold-and-dead"},
                                           {Phase::Open, u"open"},
                                           {Phase::Swap, u"swap"},
                                           {Phase::Close, u"close"},
                                           {Phase::BookIn, u"book-in"},
                                           {Phase::Light, u"light"},
                                           {Phase::Prove, u"prove"},
                                           {Phase::Account, u"account"},
                                           {Phase::Sign, u"sign"}}};
inline constexpr Words<Stop, 3> kStops{{{Stop::ColdAndDead, u"cold-and-dead"},
                                        {Stop::ReadyToOpen, u"ready-to-open"},
                                        {Stop::ReadyToStrike, u"ready-to-strike"}}};
inline constexpr Words<SignalWord, 4> kSignalWords{{{SignalWord::Danger, u"danger"},
                                                    {SignalWord::Warning, u"warning"},
                                                    {SignalWord::Caution, u"caution"},
                                                    {SignalWord::Notice, u"notice"}}};
inline constexpr Words<CaptureKind, 9> kCaptureKinds{{{CaptureKind::Counter, u"counter"},
                                                      {CaptureKind::Text, u"text"},
                                                      {CaptureKind::Choice, u"choice"},
                                                      {CaptureKind::Number, u"number"},
                                                      {CaptureKind::Picture, u"picture"},
                                                      {CaptureKind::Reading, u"reading"},
                                                      {CaptureKind::Serial, u"serial"},
                                                      {CaptureKind::Type, u"type"},
                                                      {CaptureKind::Answer, u"answer"}}};
inline constexpr Words<Means, 50> kMeans{{{Means::Note, u"note"},
                                          {Means::Good, u"good"},
                                          {Means::Bad, u"bad"},
                                          {Means::Lit, u"lit"},
                                          {Means::Off, u"off"},
                                          {Means::On, u"on"},
                                          {Means::Standby, u"standby"},
                                          {Means::Runs, u"runs"},
                                          {Means::Still, u"still"},
                                          {Means::Locked, u"locked"},
                                          {Means::Shut, u"shut"},
                                          {Means::Open, u"open"},
                                          {Means::Clamped, u"clamped"},
                                          {Means::Entered, u"entered"},
                                          {Means::Empty, u"empty"},
                                          {Means::NotSeen, u"not-seen"},
                                          {Means::None, u"none"},
                                          {Means::OutOfUse, u"out-of-use"},
                                          {Means::ForeignLock, u"foreign-lock"},
                                          {Means::Named, u"named"},
                                          {Means::OtherPoint, u"other-point"},
                                          {Means::NoneOfOurs, u"none-of-ours"},
                                          {Means::StillLive, u"still-live"},
                                          {Means::Holds, u"holds"},
                                          {Means::GivesWay, u"gives-way"},
                                          {Means::Present, u"present"},
                                          {Means::NoResponse, u"no-response"},
                                          {Means::Started, u"started"},
                                          {Means::AtOff, u"at-off"},
                                          {Means::NotAtOff, u"not-at-off"},
                                          {Means::Proved, u"proved"},
                                          {Means::NotProved, u"not-proved"},
                                          {Means::Absent, u"absent"},
                                          {Means::Voltage, u"voltage"},
                                          {Means::Unsteady, u"unsteady"},
                                          {Means::Agrees, u"agrees"},
                                          {Means::TypeDiffers, u"type-differs"},
                                          {Means::SerialDiffers, u"serial-differs"},
                                          {Means::Unreadable, u"unreadable"},
                                          {Means::Differs, u"differs"},
                                          {Means::Whole, u"whole"},
                                          {Means::Marked, u"marked"},
                                          {Means::Right, u"right"},
                                          {Means::Wrong, u"wrong"},
                                          {Means::Same, u"same"},
                                          {Means::NoLight, u"no-light"},
                                          {Means::Burst, u"burst"},
                                          {Means::Returned, u"returned"},
                                          {Means::Recycled, u"recycled"},
                                          {Means::KeptBySite, u"kept-by-site"}}};
inline constexpr Words<Lamp, 2> kLamps{{{Lamp::Old, u"old"}, {Lamp::New, u"new"}}};

} // namespace coldarc::procedure
