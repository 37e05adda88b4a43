#pragma once

#include <QByteArray>
#include <QString>

#include <cstddef>
#include <memory>

namespace coldarc::people {

/// Secret bytes in memory of their own: between guard pages, kept out of swap and core dumps where the system
/// allows, wiped when they go. They move and are never copied.
class SecretBytes {
public:
    /// All zero. Ends the program when the system gives no memory.
    explicit SecretBytes(std::size_t size);
    ~SecretBytes();
    SecretBytes(SecretBytes&& other) noexcept;
    SecretBytes& operator=(SecretBytes&& other) noexcept;
    SecretBytes(const SecretBytes&) = delete;
    SecretBytes& operator=(const SecretBytes&) = delete;

    /// The UTF-8 bytes of a text in normalisation form C, so that keyboards that build a letter differently
    /// open the same key. Copies made on the way are wiped; the QString itself is the caller's and is not.
    [[nodiscard]] static SecretBytes fromText(const QString& text);

    [[nodiscard]] unsigned char* data() { return m_data; }
    [[nodiscard]] const unsigned char* data() const { return m_data; }
    [[nodiscard]] std::size_t size() const { return m_size; }

private:
    unsigned char* m_data = nullptr;
    std::size_t m_size = 0;
};

/// A passphrase or PIN as somebody typed it, in normalisation form C. Copies share the same bytes, which are
/// wiped when the last of them goes.
class TypedSecret {
public:
    TypedSecret() = default; ///< nothing was typed
    /// The text is the caller's and is not wiped.
    // NOLINTNEXTLINE(google-explicit-constructor): a text becomes one wherever a secret is asked for
    TypedSecret(const QString& text);

    [[nodiscard]] bool isEmpty() const { return m_bytes == nullptr; }
    [[nodiscard]] const SecretBytes& bytes() const;

    friend bool operator==(const TypedSecret& one, const TypedSecret& other);

private:
    std::shared_ptr<const SecretBytes> m_bytes; ///< nullptr: empty
};

} // namespace coldarc::people
