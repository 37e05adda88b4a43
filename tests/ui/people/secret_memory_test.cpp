// What was typed to sign in stands nowhere in the memory of the program afterwards: not in a box, not in a
// view or form, not where a box had it while it grew, and not in what was freed.

#include "core/base/wipe.h"
#include "tests/ui/people/people_at_work.h"
#include "ui/people/sign_in_page.h"
#include "ui/people/sign_in_presenter.h"

#include <QLineEdit>
#include <QTest>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <cstring>
#include <fcntl.h>
#include <span>
#include <unistd.h>

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

namespace coldarc::ui {
namespace {

using test::HeldWork;

constexpr char kMask = 0x15;

/// The letters of a secret, each altered: the text itself stands nowhere in the program.
template<std::size_t Size>
consteval std::array<char, Size - 1> masked(const char (&text)[Size])
{
    std::array<char, Size - 1> letters{};
    for (std::size_t at = 0; at < letters.size(); ++at)
        letters[at] = static_cast<char>(text[at] ^ kMask);
    return letters;
}

constexpr auto kPassphrase = masked("seven grey herons over the weir");
constexpr auto kPin = masked("60419372");

QChar letter(char one)
{
    return QLatin1Char(static_cast<char>(one ^ kMask));
}

QString plain(std::span<const char> secret)
{
    QString text;
    text.reserve(static_cast<qsizetype>(secret.size()));
    for (const char one : secret)
        text.append(letter(one));
    return text;
}

void type(QLineEdit* box, std::span<const char> secret)
{
    for (const char one : secret)
        QTest::keyClicks(box, QString(letter(one)));
}

/// How often these letters, so many bytes each, begin among the first `starts` bytes of a piece of memory.
int countIn(QByteArrayView memory, qsizetype starts, std::span<const char> secret, qsizetype width)
{
    int count = 0;
    const auto size = static_cast<qsizetype>(secret.size());
    for (qsizetype from = 0; from < starts && from + size * width <= memory.size(); ++from) {
        qsizetype same = 0;
        while (same < size &&
               (memory[from + same * width] ^ kMask) == secret[static_cast<std::size_t>(same)] &&
               (width == 1 || memory[from + same * width + 1] == 0))
            ++same;
        count += same == size ? 1 : 0;
    }
    return count;
}

/// How often they stand in all memory that the program can write to, in UTF-8 and in UTF-16. Nothing is
/// allocated meanwhile: it might lie over what was freed and not wiped.
int copiesOf(std::span<const char> secret)
{
    constexpr std::uint64_t kMostBytes = 512 << 20; // larger ones are a sanitizer's own
    static std::array<char, 1 << 18> maps;
    static std::array<char, 1 << 16> piece;
    const int list = ::open("/proc/self/maps", O_RDONLY | O_CLOEXEC);
    const int memory = ::open("/proc/self/mem", O_RDONLY | O_CLOEXEC);
    EXPECT_TRUE(list >= 0 && memory >= 0);
    std::size_t length = 0;
    while (const ssize_t got = ::read(list, maps.data() + length, maps.size() - 1 - length)) {
        if (got < 0)
            break;
        length += static_cast<std::size_t>(got);
    }
    EXPECT_LT(length, maps.size() - 1);
    maps[length] = '\0';
    int count = 0;
    const auto step = static_cast<qsizetype>(piece.size() - 2 * secret.size()); // none is cut in two
    for (const char* line = maps.data(); *line != '\0'; line = std::strchr(line, '\n') + 1) {
        char* rest = nullptr;
        const std::uint64_t from = std::strtoull(line, &rest, 16);
        const std::uint64_t end = std::strtoull(rest + 1, &rest, 16);
        if (std::strncmp(rest, " rw", 3) != 0 || end - from > kMostBytes)
            continue;
        for (std::uint64_t at = from; at < end; at += static_cast<std::uint64_t>(step)) {
            const ssize_t got = ::pread(memory, piece.data(), std::min<std::uint64_t>(piece.size(), end - at),
                                        static_cast<off_t>(at));
            const QByteArrayView read(piece.data(), std::max<ssize_t>(got, 0));
            count += countIn(read, step, secret, 1) + countIn(read, step, secret, 2);
            piece.fill('\0'); // or it would be found here
        }
    }
    ::close(list);
    ::close(memory);
    return count;
}

class SecretMemoryTest : public test::PeopleAtWork {
protected:
    void SetUp() override
    {
#ifdef __SANITIZE_ADDRESS__
        GTEST_SKIP() << "the address sanitizer copies what grows or shrinks, and keeps what is freed";
#endif
    }
    SecretMemoryTest()
    {
        keeper = std::make_unique<SessionKeeper>(clock, held.behind());
        presenter = std::make_unique<SignInPresenter>(people, keys, *keeper, clock, held.behind());
        presenter->setPinCost(test::kCheapGuess);
        QString text = plain(kPassphrase);
        enrol(u"ada"_s, u"Ada Invented"_s, text);
        wipe(text);
    }

    HeldWork held;
    std::unique_ptr<SessionKeeper> keeper;
    std::unique_ptr<SignInPresenter> presenter;
};

// Otherwise nothing would be found below whatever is left.
TEST_F(SecretMemoryTest, ATextThatIsLeftIsFound)
{
    ASSERT_EQ(copiesOf(kPassphrase), 0);
    QString text = plain(kPassphrase);
    EXPECT_EQ(copiesOf(kPassphrase), 1);
    const QByteArray utf8 = text.toUtf8();
    EXPECT_EQ(copiesOf(kPassphrase), 2);

    const QString shared = text;
    wipe(text);
    EXPECT_EQ(copiesOf(kPassphrase), 1) << "those who shared it have it no more";
    EXPECT_EQ(text, QString());
}

TEST_F(SecretMemoryTest, NothingOfWhatWasTypedToSignInIsLeft)
{
    SignInPage page(clock);
    QObject::connect(presenter.get(), &SignInPresenter::viewChanged, &page, &SignInPage::setView);
    QObject::connect(&page, &SignInPage::goRequested, presenter.get(), &SignInPresenter::go);
    page.resize(1366, 768);
    page.show();
    presenter->begin();
    auto* secret = page.findChild<QWidget*>(u"secret"_s)->findChild<QLineEdit*>();
    auto* again = page.findChild<QWidget*>(u"again"_s)->findChild<QLineEdit*>();

    type(secret, kPassphrase);
    EXPECT_EQ(copiesOf(kPassphrase), 1) << "the box has it";
    clock.advance(1s);
    QTest::keyClick(secret, Qt::Key_Return);
    ASSERT_TRUE(held.isHeld());
    EXPECT_EQ(copiesOf(kPassphrase), 1) << "what is being tried stands in guarded memory alone";
    held.finish();
    ASSERT_EQ(presenter->view().ask, SignInView::Ask::Pin);
    EXPECT_EQ(copiesOf(kPassphrase), 0);
    EXPECT_EQ(copiesOf(std::span(kPassphrase).first(12)), 0) << "nor its beginning, from where it grew";

    type(secret, kPin);
    QTest::keyClick(secret, Qt::Key_Return);
    type(again, kPin);
    clock.advance(1s);
    QTest::keyClick(again, Qt::Key_Return);
    ASSERT_TRUE(held.isHeld());
    held.finish();
    ASSERT_EQ(keeper->state(), SessionKeeper::State::Open);
    EXPECT_EQ(copiesOf(kPin), 0);
}

TEST_F(SecretMemoryTest, NothingOfAWrongPassphraseIsLeftEither)
{
    constexpr auto kWrong = masked("seven grey herons over the dam");
    SignInPage page(clock);
    QObject::connect(presenter.get(), &SignInPresenter::viewChanged, &page, &SignInPage::setView);
    QObject::connect(&page, &SignInPage::goRequested, presenter.get(), &SignInPresenter::go);
    page.show();
    presenter->begin();
    auto* secret = page.findChild<QWidget*>(u"secret"_s)->findChild<QLineEdit*>();

    type(secret, kWrong);
    clock.advance(1s);
    QTest::keyClick(secret, Qt::Key_Return);
    held.finish();

    ASSERT_EQ(presenter->view().message, u"That is not the passphrase."_s);
    EXPECT_EQ(copiesOf(kWrong), 0);
}

TEST_F(SecretMemoryTest, JudgingASecretLeavesNoCopyOfIt)
{
    QString text = plain(kPassphrase);
    const people::TypedSecret typed(text);
    wipe(text);
    ASSERT_EQ(copiesOf(kPassphrase), 1);

    ASSERT_TRUE(people::Passphrase::accept(typed));
    EXPECT_EQ(copiesOf(kPassphrase), 1);
}

TEST_F(SecretMemoryTest, ABoxThatIsWipedTakesWhatWasTypedFromWhoeverShares)
{
    Field field(Field::Kind::Secret);
    type(field.box(), kPassphrase);
    const QString shared = field.value();

    field.wipe();
    EXPECT_EQ(copiesOf(kPassphrase), 0);
    EXPECT_EQ(field.value(), QString());
}

TEST_F(SecretMemoryTest, ABoxThatGoesTakesWhatWasTypedAlong)
{
    auto field = std::make_unique<Field>(Field::Kind::Secret);
    type(field->box(), kPassphrase);
    ASSERT_EQ(copiesOf(kPassphrase), 1);

    field.reset();
    EXPECT_EQ(copiesOf(kPassphrase), 0);
}

} // namespace
} // namespace coldarc::ui
