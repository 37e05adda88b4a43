#pragma once

#include "core/store/backup.h"
#include "core/store/workspace_file.h"
#include "ui/shell/shell_presenter.h"

namespace coldarc::app {

/// What is said when a workspace file could not be opened: what happened, what was kept, what to do. Nothing
/// for the outcomes with a database.
[[nodiscard]] ui::Trouble openingTrouble(store::Opening outcome);

/// Whether a backup may take the place of a workspace file that could not be opened.
[[nodiscard]] bool mayRestore(store::Opening outcome);

/// What is said when the demo could not be made.
[[nodiscard]] ui::Trouble demoTrouble(Error::Kind why);

/// What became of a restore, for whoever asked for it.
[[nodiscard]] ui::Trouble restoreTrouble(const Result<store::Restored>& restored);

} // namespace coldarc::app
