#pragma once

#include "core/people/gear_store.h"
#include "core/people/key_store.h"
#include "core/people/people_store.h"
#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"
#include "ui/parts/behind.h"
#include "ui/people/enrolment.h"

#include <functional>
#include <vector>

namespace coldarc::test {

/// Cheap to guess at: for tests only.
inline constexpr people::GuessCost kCheapGuess{1, 8};

/// Work that is done when the test says so, to look at what is shown meanwhile.
class HeldWork {
public:
    [[nodiscard]] ui::Behind behind()
    {
        return [this](std::function<void()> work, std::function<void()> then) {
            m_work = std::move(work);
            m_then = std::move(then);
        };
    }
    [[nodiscard]] bool isHeld() const { return static_cast<bool>(m_work); }
    void finish()
    {
        const auto work = std::exchange(m_work, nullptr);
        const auto then = std::exchange(m_then, nullptr);
        work();
        then();
    }

private:
    std::function<void()> m_work;
    std::function<void()> m_then;
};

/// A workspace in memory with the stores of people.
class PeopleAtWork : public ::testing::Test {
protected:
    people::Person enrol(const QString& id, const QString& name, const QString& passphrase,
                         people::Role role = people::Role::Engineer)
    {
        people::Person person;
        person.id = PersonId(id);
        person.name = name;
        person.role = role;
        EXPECT_TRUE(people.add(person));
        const auto sealed = people::sealKey(people::SigningKey::generate(), person.id,
                                            *people::Passphrase::accept(passphrase), kCheapGuess);
        EXPECT_TRUE(sealed);
        EXPECT_TRUE(keys.enrol(person.id, *sealed, clock.now()));
        return person;
    }
    [[nodiscard]] ui::Enrol enrolling()
    {
        return [this](const ui::Enrolment& enrolment) -> Result<void> {
            return database.transaction([&]() -> Result<void> {
                if (auto added = people.add(enrolment.person); !added)
                    return added;
                for (const people::Authorisation& one : enrolment.authorisations) {
                    if (auto given = people.give(one); !given)
                        return given;
                }
                return enrolment.key ? keys.enrol(enrolment.person.id, *enrolment.key, clock.now())
                                     : Result<void>();
            });
        };
    }

    FakeClock clock;
    CountingIds ids;
    store::Database database = store::Database::inMemory();
    people::PeopleStore people{database};
    people::KeyStore keys{database};
    people::GearStore gear{database};
};

} // namespace coldarc::test
