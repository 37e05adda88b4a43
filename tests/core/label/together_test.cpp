#include "core/label/together.h"

#include "tests/support/testing.h"

namespace coldarc::label {
namespace {

using namespace Qt::StringLiterals;
using Verdict = Together::Verdict;

LabelText read(const QString& type, const QString& serial, const QStringList& types)
{
    LabelText text;
    text.verdict = LabelText::Verdict::Read;
    text.type = type;
    text.serial = serial;
    for (const QString& id : types)
        text.types.append(LampTypeId(id));
    return text;
}

const LabelText kBox = read(u"2900041701028"_s, u"HB-20417"_s, {u"b"_s});
const LabelText kPaper = read(u"HVQ30-40B"_s, {}, {u"b"_s});
const LabelText kMarking = read({}, u"hb 20417"_s, {u"b"_s, u"c"_s});

TEST(TogetherTest, CodesOfOneLampAgreeHoweverEachWritesIt)
{
    const Together all = together({kBox, kPaper, kMarking});

    EXPECT_EQ(all.verdict, Verdict::Agree);
    EXPECT_EQ(all.types, QList<LampTypeId>{LampTypeId(u"b"_s)});
    EXPECT_EQ(all.serials, QStringList{u"HB-20417"_s});
}

TEST(TogetherTest, AnotherTypeGoesBeforeAnotherSerial)
{
    const LabelText sister = read(u"HVQ30-408"_s, u"HS-1"_s, {u"s"_s});

    EXPECT_EQ(together({kBox, sister}).verdict, Verdict::TypesDiffer);
    EXPECT_EQ(together({kBox, read(u"HVQ30-40B"_s, u"HB-20418"_s, {u"b"_s})}).verdict,
              Verdict::SerialsDiffer);
}

TEST(TogetherTest, ASerialThatLooksLikeAnotherTypesIsADifferenceOfTypes)
{
    EXPECT_EQ(together({kPaper, read({}, u"HS-33871"_s, {u"s"_s})}).verdict, Verdict::TypesDiffer);
}

TEST(TogetherTest, WhatWasNotReadIsNeverAgreement)
{
    LabelText unknown;
    LabelText unsound;
    unsound.verdict = LabelText::Verdict::Unsound;

    EXPECT_EQ(together({kBox, unknown}).verdict, Verdict::NotAllRead);
    EXPECT_EQ(together({kBox, unsound}).verdict, Verdict::NotAllRead);
    EXPECT_EQ(together({unknown}).verdict, Verdict::NothingRead);
    EXPECT_EQ(together({}).verdict, Verdict::NothingRead);
}

TEST(TogetherTest, APictureWithoutACodeIsNeverAgreement)
{
    const LabelText sister = read(u"HVQ30-408"_s, {}, {u"s"_s});

    EXPECT_EQ(together({kBox}, 1).verdict, Verdict::NotAllRead);
    EXPECT_EQ(together({kBox, sister}, 1).verdict, Verdict::TypesDiffer);
    EXPECT_EQ(together({}, 1).verdict, Verdict::NothingRead);
}

} // namespace
} // namespace coldarc::label
