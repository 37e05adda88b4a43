#include "ui/parts/not_written.h"

#include "tests/support/testing.h"

using namespace Qt::StringLiterals;

namespace coldarc::ui {
namespace {

TEST(NotWrittenTest, OnlyADiskThatRefusesIsGivenRoom)
{
    const QString kept = u"Nothing was added."_s;

    EXPECT_EQ(notWritten({Error::Kind::Storage, {}}, kept),
              u"It could not be written. Nothing was added. Make room on the disk, then try again."_s);
    EXPECT_EQ(notWritten({Error::Kind::Busy, {}}, kept),
              u"It could not be written: the workspace was busy. Nothing was added. Try again."_s);
}

} // namespace
} // namespace coldarc::ui
