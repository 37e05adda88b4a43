#pragma once

#include "tests/core/review/signed_as_wanted.h"
#include "tests/core/visit/night.h"
#include "ui/review/review_presenter.h"

#include <algorithm>

namespace coldarc::test {

/// These entries, read as those of this visit.
inline std::shared_ptr<ui::VisitReading> readingOf(const VisitId& visit, QList<visit::Entry> entries,
                                                   const QList<review::HeadSigned>& signatures)
{
    std::get<visit::Opening>(entries.first().body).visit = visit;
    auto reading = std::make_shared<ui::VisitReading>(ui::VisitReading{
        visit, *report::reportOf(entries, sha256("an invented head"), signatures), review::Replay(entries)});
    reading->offices.insert(QStringLiteral("invented-office"), QStringLiteral("Invented Office"));
    return reading;
}

/// A night that was worked to its end and signed, with something that went wrong in it.
inline Night signedNight()
{
    Night night;
    night.doUntil(QStringLiteral("lamp-off"));
    visit::Happened late;
    late.incident = visit::Incident::NoTimeLeft;
    late.swap = night.swap().id;
    late.text = QStringLiteral("the hall fills");
    EXPECT_TRUE(night.tell(late));
    night.doAll();
    night.close();
    return night;
}

/// What is to be done behind the window, done when a test says so.
class Later {
public:
    [[nodiscard]] ui::Behind behind()
    {
        return [this](std::function<void()> work, std::function<void()> then) {
            m_jobs.append({std::move(work), std::move(then)});
        };
    }
    [[nodiscard]] qsizetype waiting() const { return m_jobs.size(); }
    /// The one that was asked for first.
    void doNext()
    {
        const Job job = m_jobs.takeFirst();
        job.work();
        job.then();
    }
    void doAll()
    {
        while (!m_jobs.isEmpty())
            doNext();
    }

private:
    struct Job {
        std::function<void()> work;
        std::function<void()> then;
    };
    QList<Job> m_jobs;
};

/// A queue of invented visits in memory, filtered as the store does, and what is read of each.
class DeskAtWork {
public:
    struct Line {
        QString id;
        QString site;
        int weight = 0;
        QStringList kinds{};
        QString review = QStringLiteral("waiting");
    };

    DeskAtWork()
        : night(signedNight())
    {
    }

    [[nodiscard]] ui::ReviewDeeds deeds()
    {
        return {[this](const review::QueueFilter& filter, review::QueueOrder order, qint64 first, int most) {
                    return page(filter, order, first, most);
                },
                [this](const review::QueueFilter& filter, review::QueueOrder order, const VisitId& visit) {
                    return placeOf(filter, order, visit);
                },
                [this](const VisitId& visit) -> Result<std::shared_ptr<ui::VisitReading>> {
                    ++read;
                    if (failure)
                        return tl::unexpected(*failure);
                    return readingOf(visit, night.entries, signedAsWanted(night));
                },
                [this](const Hash&) -> Result<QByteArray> {
                    ++picturesRead;
                    if (pictureFailure)
                        return tl::unexpected(*pictureFailure);
                    return picture;
                }};
    }

    Result<review::QueuePage> page(const review::QueueFilter& filter, review::QueueOrder order, qint64 first,
                                   int most)
    {
        ++pages;
        lastFilter = filter;
        lastOrder = order;
        if (queueFails)
            return fail(Error::Kind::Storage, QStringLiteral("an invented fault"));
        review::QueuePage answer;
        for (const Line& line : lines) {
            const bool waits =
                line.review == QStringLiteral("waiting") || line.review == QStringLiteral("answered");
            if ((filter.waitsAlone && !waits) || (filter.isUnusualAlone && line.weight == 0) ||
                (filter.stand && review::wordOf(*filter.stand) != line.review) ||
                !line.site.contains(filter.text, Qt::CaseInsensitive))
                continue;
            ++answer.all;
            answer.unusual += line.weight > 0 ? 1 : 0;
            if (answer.all <= first || answer.all > first + most)
                continue;
            auto& summary = answer.lines.emplace_back();
            summary.visit = VisitId(line.id);
            summary.siteText = line.site;
            summary.engineerText = QStringLiteral("A. Okoro");
            summary.swaps = 1;
            summary.weight = line.weight;
            summary.kinds = line.kinds;
            summary.review = line.review;
            summary.headHash = sha256("an invented head");
        }
        return answer;
    }

    Result<qint64> placeOf(const review::QueueFilter& filter, review::QueueOrder order, const VisitId& visit)
    {
        const auto all = page(filter, order, 0, static_cast<int>(lines.size()));
        if (!all)
            return tl::unexpected(all.error());
        const auto found = std::ranges::find(all->lines, visit, &store::VisitSummary::visit);
        return found == all->lines.end() ? -1 : found - all->lines.begin();
    }

    Night night;
    QList<Line> lines{
        {QStringLiteral("visit-1"),
         QStringLiteral("Pier Street"),
         90,
         {QStringLiteral("incident-met"), QStringLiteral("step-owed")}},
        {QStringLiteral("visit-2"), QStringLiteral("Weir Court")},
        {QStringLiteral("visit-3"), QStringLiteral("Old Gasworks"), 0, {}, QStringLiteral("accepted")}};
    bool queueFails = false;
    std::optional<Error> failure;
    int pages = 0;
    int read = 0;
    QByteArray picture;
    std::optional<Error> pictureFailure;
    int picturesRead = 0;
    review::QueueFilter lastFilter;
    review::QueueOrder lastOrder = review::QueueOrder::Weight;
};

} // namespace coldarc::test
