#pragma once

namespace coldarc::app {

// How the commands without a window are called.
inline constexpr const char* kLabelUsage = "coldarc label [--json] [--workspace FILE] FILE...";
inline constexpr const char* kVerifyUsage = "coldarc verify [--json] [--office THUMBPRINT] FILE...";
inline constexpr const char* kReportUsage = "coldarc report RECORD -o FILE [--paper a4|letter]";

} // namespace coldarc::app
