#pragma once

#include <QByteArray>
#include <QString>

#include <cstddef>

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
    /// open the same key. The QString itself is the caller's and is not wiped.
    [[nodiscard]] static SecretBytes fromText(const QString& text);

    [[nodiscard]] unsigned char* data() { return m_data; }
    [[nodiscard]] const unsigned char* data() const { return m_data; }
    [[nodiscard]] std::size_t size() const { return m_size; }

private:
    unsigned char* m_data = nullptr;
    std::size_t m_size = 0;
};

} // namespace coldarc::people
