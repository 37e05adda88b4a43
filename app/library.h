#pragma once

#include "core/catalogue/catalogue.h"
#include "core/photometry/tolerance_file.h"
#include "core/procedure/procedure_file.h"

#include <QStringList>

#include <future>
#include <mutex>
#include <vector>

namespace coldarc::app {

/// What the program reads from its resources folder: lamp types, projector models, procedures. It is read and
/// proved in threads of its own, so that nobody waits for it at the start; whoever asks for a part waits
/// until that part is there. Proving takes long and is for working by: it begins when it is asked for, so
/// that it takes nothing from the first page.
class Library {
public:
    /// Begins to read. Destroying it waits for the end of that.
    explicit Library(const QString& resources);
    Library(const Library&) = delete; // the threads look at its parts
    Library& operator=(const Library&) = delete;

    [[nodiscard]] const catalogue::Catalogue& catalogue() const { return m_read.get().catalogue; }
    /// Read and not proved: to plan by, never to work by.
    [[nodiscard]] const procedure::ProcedureLoading& readable() const { return m_read.get().procedures; }
    /// Those that were proved safe on every path.
    [[nodiscard]] const procedure::ProcedureLoading& proved() const
    {
        beginProof();
        return m_proved.get();
    }
    /// Begins to prove, in a thread of its own; once is enough.
    void beginProof() const;

    /// What screens are held against.
    [[nodiscard]] const std::vector<photometry::ToleranceSet>& toleranceSets() const
    {
        return m_read.get().limits.sets;
    }

    /// True once nobody waits for anything here any more; never before the proof was begun.
    [[nodiscard]] bool isWhole() const;
    /// Files that were refused, and why. Waits for the whole.
    [[nodiscard]] QStringList complaints() const;

private:
    struct Read {
        catalogue::Catalogue catalogue;
        procedure::ProcedureLoading procedures;
        photometry::ToleranceSetLoading limits;
        QList<catalogue::FileRemark> complaints; ///< of the catalogue
    };

    std::shared_future<Read> m_read;
    mutable std::once_flag m_proofBegun;
    mutable std::shared_future<procedure::ProcedureLoading> m_proved;
};

/// The folder with catalogue and procedures: beside the program as it is installed
/// (<program>/../share/coldarc/resources), else in the source tree that it was built from.
[[nodiscard]] QString resourcesFolder(const QString& programFolder);
/// The folder with the files of the demo, found in the same way.
[[nodiscard]] QString sampleDataFolder(const QString& programFolder);

} // namespace coldarc::app
