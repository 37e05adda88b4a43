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
inline constexpr Words<Lamp, 2> kLamps{{{Lamp::Old, u"old"}, {Lamp::New, u"new"}}};

} // namespace coldarc::procedure
