#pragma once

#include <QString>

namespace coldarc::app {

/// Where the program's own files are.
struct Folders {
    QString resources;  ///< with catalogue/ and procedures/
    QString sampleData; ///< with the files of the demo
};

} // namespace coldarc::app
