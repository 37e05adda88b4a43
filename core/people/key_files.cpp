#include "core/people/key_files.h"

#include "core/base/json.h"
#include "core/people/jws.h"
#include "core/people/store_text.h"

#include <QJsonDocument>

using namespace Qt::StringLiterals;

namespace coldarc::people {
namespace {

QString textOf(const QByteArray& bytes)
{
    return QString::fromLatin1(base64Url(bytes));
}

/// One file's object with what is wrong in it.
class FileReader {
public:
    FileReader(const QJsonObject& object, const QString& kind)
        : m_reader(object, {}, m_complaints)
    {
        if (m_reader.text(u"coldarc"_s) != kind)
            m_reader.complain(u"coldarc"_s, u"must be "_s + kind);
    }

    [[nodiscard]] JsonReader& reader() { return m_reader; }
    [[nodiscard]] std::optional<PublicKey> key(const QString& name)
    {
        const auto key = keyFromJwk(m_reader.child(name).object);
        if (!key)
            m_reader.complain(name, u"must be a key of Ed25519"_s);
        return key;
    }
    /// What is wrong, or nothing.
    [[nodiscard]] Result<void> finish()
    {
        m_reader.finish();
        if (!m_complaints.isEmpty())
            return fail(Error::Kind::Malformed, m_complaints.join(u"; "_s));
        return {};
    }

private:
    QStringList m_complaints;
    JsonReader m_reader;
};

std::optional<Certificate> certificateIn(const JsonReader::Child& child, QStringList& complaints)
{
    JsonReader reader(child.object, child.place, complaints);
    const auto header = fromBase64Url(reader.text(u"protected"_s).toLatin1());
    const auto payload = fromBase64Url(reader.text(u"payload"_s).toLatin1());
    const auto bytes = fromBase64Url(reader.text(u"signature"_s).toLatin1());
    reader.finish();
    const auto signature = bytes ? Signature::fromBytes(*bytes) : std::nullopt;
    if (!header || !payload || !signature) {
        reader.complain(u"signature"_s, u"must be a JWS"_s);
        return std::nullopt;
    }
    return Certificate{{*header, *payload}, *signature};
}

} // namespace

QByteArray bytesOf(const KeyRequest& request)
{
    return QJsonDocument(QJsonObject{{u"coldarc"_s, u"key"_s},
                                     {u"key"_s, jwkOf(request.key)},
                                     {u"person"_s, request.person.text()},
                                     {u"name"_s, request.name},
                                     {u"role"_s, wordText(wordOf(request.role))}})
        .toJson();
}

Result<KeyRequest> keyRequestFrom(const QByteArray& bytes)
{
    const auto object = parseObject(bytes);
    if (!object)
        return tl::unexpected(object.error());
    FileReader file(*object, u"key"_s);
    const auto key = file.key(u"key"_s);
    const QString person = file.reader().text(u"person"_s);
    const QString name = file.reader().text(u"name"_s);
    const auto role = roleFromWord(file.reader().text(u"role"_s).toStdString());
    if (!role)
        file.reader().complain(u"role"_s, u"must be a role"_s);
    if (const auto finished = file.finish(); !finished)
        return tl::unexpected(finished.error());
    return KeyRequest{*key, PersonId(person), name, *role};
}

QByteArray bytesOf(const CertificateFile& file)
{
    const QJsonObject certificate{{u"protected"_s, textOf(file.certificate.jws.protectedHeader)},
                                  {u"payload"_s, textOf(file.certificate.jws.payload)},
                                  {u"signature"_s, textOf(file.certificate.signature.bytes())}};
    return QJsonDocument(QJsonObject{{u"coldarc"_s, u"certificate"_s},
                                     {u"office"_s, jwkOf(file.office)},
                                     {u"name"_s, file.officeName},
                                     {u"certificate"_s, certificate}})
        .toJson();
}

Result<CertificateFile> certificateFileFrom(const QByteArray& bytes)
{
    const auto object = parseObject(bytes);
    if (!object)
        return tl::unexpected(object.error());
    FileReader file(*object, u"certificate"_s);
    QStringList complaints;
    const auto office = file.key(u"office"_s);
    const QString name = file.reader().text(u"name"_s);
    const auto certificate = certificateIn(file.reader().child(u"certificate"_s), complaints);
    if (office && certificate && !isCertifiedBy(*office, *certificate))
        file.reader().complain(u"certificate"_s, u"the office did not sign it"_s);
    if (!complaints.isEmpty())
        file.reader().complain(u"certificate"_s, complaints.join(u", "_s));
    if (const auto finished = file.finish(); !finished)
        return tl::unexpected(finished.error());
    return CertificateFile{*office, name, *certificate};
}

} // namespace coldarc::people
