#include "ui/photometry/view_of_sheet.h"

#include "tests/support/testing.h"

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using namespace photometry;

/// The note beside a verdict with this limit and these marks.
QString noteOf(Standing standing, std::vector<Mark> marks)
{
    Verdict verdict;
    verdict.limit.least = 10;
    verdict.limit.standing = standing;
    verdict.marks = std::move(marks);
    SheetVerdict sheet;
    sheet.verdicts = {verdict};
    return verdictLinesOf(sheet).first().note;
}

TEST(ViewOfSheetTest, AVerdictIsShownWithEverythingThatIsMarkedOnIt)
{
    EXPECT_EQ(noteOf(Standing::Read, {}), u"read in the document"_s);
    EXPECT_EQ(noteOf(Standing::SecondHand, {Mark::SecondHandFigure, Mark::FormulaFromMemory}),
              u"second hand, formula from memory"_s);
    EXPECT_EQ(noteOf(Standing::Read, {Mark::LaboratoryLimit}), u"read in the document, laboratory limit"_s);
}

} // namespace
} // namespace coldarc::ui
