#include "core/people/key_files.h"

#include "tests/support/test_key.h"
#include "tests/support/testing.h"

// Every person and office here is invented.

namespace coldarc::people {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono;
using coldarc::test::keyOf;

class KeyFilesTest : public ::testing::Test {
protected:
    [[nodiscard]] static QString detailOf(const auto& read) { return read ? QString() : read.error().detail; }

    SigningKey office = keyOf(4);
    KeyRequest request{keyOf(1).publicKey(), PersonId(u"p-1"_s), u"Ada Invented"_s, Role::Trainee};
    CertificateFile file{office.publicKey(), u"Invented Lamps"_s,
                         *certify({request.key, request.person, request.name, request.role,
                                   2026y / November / 25d, 2027y / November / 24d},
                                  office)};
};

TEST_F(KeyFilesTest, AreReadAsTheyWereWritten)
{
    EXPECT_EQ(keyRequestFrom(bytesOf(request)).value(), request);
    EXPECT_EQ(certificateFileFrom(bytesOf(file)).value(), file);
}

TEST_F(KeyFilesTest, NameWhatIsWrongWithThem)
{
    EXPECT_TRUE(detailOf(keyRequestFrom(bytesOf(request).replace("trainee", "boss"))).contains(u"role"_s));
    EXPECT_TRUE(detailOf(keyRequestFrom(bytesOf(request).replace("OKP", "RSA"))).contains(u"key"_s));
    EXPECT_TRUE(detailOf(keyRequestFrom(bytesOf(file))).contains(u"coldarc"_s));
    EXPECT_TRUE(detailOf(keyRequestFrom("{}")).contains(u"name"_s));
    EXPECT_FALSE(keyRequestFrom("hello"));
    EXPECT_TRUE(detailOf(certificateFileFrom(bytesOf(request))).contains(u"certificate"_s));
    EXPECT_FALSE(certificateFileFrom("hello"));
}

TEST_F(KeyFilesTest, ACertificateThatItsOfficeDidNotSignIsNotRead)
{
    file.office = keyOf(5).publicKey();

    EXPECT_TRUE(detailOf(certificateFileFrom(bytesOf(file))).contains(u"did not sign"_s));
}

} // namespace
} // namespace coldarc::people
