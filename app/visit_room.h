#pragma once

#include "app/lamp_records.h"
#include "app/signature_clerk.h"
#include "app/visit_files.h"
#include "core/store/pictures.h"
#include "core/visit/logbook.h"
#include "ui/label/decoding_process.h"
#include "ui/parts/behind.h"
#include "ui/visit/visit_desk.h"
#include "ui/visit/visit_page.h"

#include <QWidget>

#include <memory>

namespace coldarc::app {

/// Pictures, as the pages ask for them.
class StoredPictures final : public ui::PictureShelf {
public:
    /// Borrows the database, which must outlive the shelf.
    explicit StoredPictures(store::Database& database)
        : m_database(database)
    {
    }
    [[nodiscard]] qsizetype mostBytes() const override { return store::Pictures::kMostBytes; }
    [[nodiscard]] Result<Hash> keep(const QString& mediaType, const QByteArray& bytes) override;
    [[nodiscard]] Result<QByteArray> read(const Hash& hash) const override;

private:
    store::Database& m_database;
};

/// One visit on the bench: its logbook, the one way to it, the pages over that, and who signs. Everything of
/// a visit lives and goes together.
class VisitRoom final : public QWidget {
    Q_OBJECT

public:
    /// Takes the logbook over. Borrows the rest, which must outlive the room; the tools have a ring.
    /// @param isFirstOfThisRun  nobody had the visit open since the program was started.
    VisitRoom(visit::Logbook logbook, Workspace& workspace, const ui::PeopleTools& tools, const Clock& clock,
              const PersonId& presses, bool isFirstOfThisRun, QWidget* parent = nullptr);
    ~VisitRoom() override;

    [[nodiscard]] ui::VisitDesk& desk() { return m_desk; }
    [[nodiscard]] ui::VisitPage& page() { return *m_page; }
    [[nodiscard]] bool isSomebodyInside() const;
    [[nodiscard]] Result<void> saveRecord(const QString& file) const { return m_files.saveRecord(file); }
    [[nodiscard]] Result<ReportOut> report() const { return m_files.report(); }

    /// What supervisors have said of the visit, as the workspace has it now.
    void readReviews();

Q_SIGNALS:
    /// Something was kept: everything shown may have changed.
    void changed();
    void failed(const coldarc::Error& error);
    /// A signature could not be made or kept.
    void notSigned(const coldarc::Error& error);
    /// A file that was asked for could not be written; the visit itself is as it was.
    void notSaved(const QString& file, const coldarc::Error& error);
    /// Another was: a sentence.
    void saved(const QString& said);
    void visitClosed();
    /// Out of a visit that is over.
    void leaveRequested();

private:
    void takeUpAgain(bool isFirstOfThisRun);
    void settle();

    Workspace& m_workspace;
    visit::Logbook m_logbook;
    ui::VisitDesk m_desk;
    SignatureClerk m_clerk;
    StoredPictures m_pictures;
    StoredLampRecords m_records;
    ui::DecodingProcess m_decoder;
    ui::BehindThreads m_behind;
    std::unique_ptr<ui::VisitPage> m_page;
    VisitFiles m_files;
};

} // namespace coldarc::app
