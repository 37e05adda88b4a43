#include "core/people/secret_bytes.h"

#include "core/base/wipe.h"
#include "core/people/sodium.h"

#include <cstring>
#include <new>
#include <utility>

namespace coldarc::people {

SecretBytes::SecretBytes(std::size_t size)
    : m_size(size)
{
    startSodium();
    m_data = static_cast<unsigned char*>(sodium_malloc(size));
    if (m_data == nullptr)
        throw std::bad_alloc(); // ends the program: no secret is kept in memory that is not guarded
    sodium_memzero(m_data, size);
}

SecretBytes::~SecretBytes()
{
    sodium_free(m_data); // wipes
}

SecretBytes::SecretBytes(SecretBytes&& other) noexcept
    : m_data(std::exchange(other.m_data, nullptr))
    , m_size(std::exchange(other.m_size, 0))
{
}

SecretBytes& SecretBytes::operator=(SecretBytes&& other) noexcept
{
    std::swap(m_data, other.m_data);
    std::swap(m_size, other.m_size);
    return *this;
}

SecretBytes SecretBytes::fromText(const QString& text)
{
    QString normal = text.normalized(QString::NormalizationForm_C);
    QByteArray utf8 = normal.toUtf8();
    SecretBytes secret(static_cast<std::size_t>(utf8.size()));
    std::memcpy(secret.data(), utf8.constData(), secret.size());
    sodium_memzero(utf8.data(), secret.size());
    if (!normal.isSharedWith(text)) // a text in this form already is the caller's still
        wipe(normal);
    return secret;
}

TypedSecret::TypedSecret(const QString& text)
    : m_bytes(text.isEmpty() ? nullptr : std::make_shared<const SecretBytes>(SecretBytes::fromText(text)))
{
}

const SecretBytes& TypedSecret::bytes() const
{
    static const SecretBytes kNothing(0);
    return m_bytes ? *m_bytes : kNothing;
}

bool operator==(const TypedSecret& one, const TypedSecret& other)
{
    const SecretBytes& a = one.bytes();
    const SecretBytes& b = other.bytes();
    return a.size() == b.size() && std::memcmp(a.data(), b.data(), a.size()) == 0;
}

} // namespace coldarc::people
