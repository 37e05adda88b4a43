#pragma once

#include "app/library.h"
#include "app/workspace.h"

#include <optional>

namespace coldarc::ui {
class ShellPresenter;
} // namespace coldarc::ui

namespace coldarc::app {

/// What the catalogue knows, with what was taught of codes in one workspace.
class TaughtCatalogue {
public:
    /// Borrows all of these, which must outlive this.
    TaughtCatalogue(const Library& library, Workspace& workspace, ui::ShellPresenter& shell)
        : m_library(library)
        , m_workspace(workspace)
        , m_shell(shell)
    {
    }

    /// Waits for the library. Lasts as long as this, and is made anew in its place.
    [[nodiscard]] const catalogue::Catalogue& catalogue();
    /// Something was taught, or withdrawn. Says where that cannot be read.
    void gather();

private:
    const Library& m_library;
    Workspace& m_workspace;
    ui::ShellPresenter& m_shell;
    std::optional<catalogue::Catalogue> m_catalogue; ///< nothing until it is asked for
};

} // namespace coldarc::app
