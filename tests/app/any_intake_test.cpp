#include "tests/app/any_intake.h"

#include "tests/support/testing.h"

#include <QDirIterator>
#include <QFile>

#include <random>

namespace coldarc::test {
namespace {

QByteArray bytesOf(const QString& name)
{
    QFile file(name);
    EXPECT_TRUE(file.open(QIODevice::ReadOnly)) << name.toStdString();
    return file.readAll();
}

QByteArray opening()
{
    return bytesOf(sourceFile("tests/fuzz/intake-opening"));
}

// The seeds of tests/fuzz, whatever it found, and each of them altered at a few places.
TEST(AnyIntakeTest, WhateverComesIsTakenAsIsToldOrNotAtAll)
{
    AnyIntake intake(opening());
    std::minstd_rand random(1);
    int seeds = 0;
    QDirIterator files(sourceFile("tests/fuzz/intake"), QDir::Files);
    while (files.hasNext()) {
        const QString name = files.next();
        const QByteArray seed = bytesOf(name);
        ++seeds;
        EXPECT_TRUE(intake.takesSafely(seed)) << name.toStdString();
        EXPECT_TRUE(intake.takesSafely(seed.left(1).toUpper() + seed.mid(1))) << name.toStdString();
        for (int turn = 0; turn < 4; ++turn) {
            QByteArray bytes = seed;
            for (int change = 0; change < 1 + turn % 4 && bytes.size() > 1; ++change) {
                const auto at =
                    1 + static_cast<qsizetype>(random() % static_cast<unsigned>(bytes.size() - 1));
                bytes[at] = static_cast<char>(random());
            }
            EXPECT_TRUE(intake.takesSafely(bytes)) << name.toStdString() << ", turn " << turn;
        }
    }
    EXPECT_GE(seeds, 8);
}

// Otherwise what is fuzzed never gets as far as being taken.
TEST(AnyIntakeTest, SeedsAreTakenWithEveryEntryAndReview)
{
    struct Seed {
        const char* name;
        int entries;
        int reviews;
    };
    AnyIntake intake(opening());
    for (const Seed& seed : {Seed{"signed-lamps", 13, 0}, Seed{"signed-incidents", 13, 0},
                             Seed{"signed-light", 10, 0}, Seed{"signed-reviewed", 7, 1},
                             Seed{"signed-sent-back", 8, 2}, Seed{"file", 7, 1}, Seed{"manifest", 3, 0}}) {
        const QByteArray bytes = bytesOf(sourceFile("tests/fuzz/intake/") + QString::fromLatin1(seed.name));
        EXPECT_TRUE(intake.takesSafely(bytes)) << seed.name;
        EXPECT_EQ(intake.entriesTaken(), seed.entries) << seed.name;
        EXPECT_EQ(intake.reviewsTaken(), seed.reviews) << seed.name;
    }
}

} // namespace
} // namespace coldarc::test
