#pragma once

#include <QString>

#include <tl/expected.hpp>

#include <utility>

namespace coldarc {

/// Why the world failed: a disk, a file, a database. A rule that says no is not an Error; it has a type of
/// its own.
struct Error {
    enum class Kind {
        NotFound,  ///< what was asked for is not there
        Conflict,  ///< somebody else was first: read again, decide again
        Malformed, ///< bytes that are not what they should be; `detail` names the place
        Storage,   ///< the disk or the database refused; nothing was written
        Refused,   ///< a secret that does not open, a lock held by another process
        Busy,      ///< somebody else wrote for too long; nothing was written, the same again may come through
    };
    Kind kind = Kind::Storage;
    /// For the log and for whoever mends the file: the place and the cause, not a sentence for the screen.
    QString detail;

    friend bool operator==(const Error&, const Error&) = default;
};

/// Whether it says nothing of what was to be read or written, only that there was no getting at it.
[[nodiscard]] inline bool isOfTheDisk(const Error& error)
{
    return error.kind == Error::Kind::Storage || error.kind == Error::Kind::Busy;
}

template<class T>
using Result = tl::expected<T, Error>;

/// The short way to return an Error.
[[nodiscard]] inline tl::unexpected<Error> fail(Error::Kind kind, QString detail)
{
    return tl::unexpected<Error>(Error{kind, std::move(detail)});
}

} // namespace coldarc
