#include "core/alignment/orders.h"

#include <QtGlobal>

#include <array>

namespace coldarc::alignment {

namespace {

constexpr std::array kDriftProof5 = {-1, 2, 0, -2, 1};
constexpr std::array kDriftProof5Mirror = {1, -2, 0, 2, -1};
constexpr std::array kDriftProof7 = {-2, 2, -1, 3, 0, -3, 1};
constexpr std::array kUpAndBack9 = {-2, -1, 0, 1, 2, 1, 0, -1, -2};

} // namespace

std::span<const int> settingsOf(Order order)
{
    switch (order) {
    case Order::DriftProof5:
        return kDriftProof5;
    case Order::DriftProof5Mirror:
        return kDriftProof5Mirror;
    case Order::DriftProof7:
        return kDriftProof7;
    case Order::UpAndBack9:
        return kUpAndBack9;
    }
    Q_UNREACHABLE();
}

PairedDifference pairedDifference(double x1, double r1, double r2, double x2)
{
    return {((x1 - r1) - (r2 - x2)) / 2, (-x1 + r1 - r2 + x2) / 4};
}

} // namespace coldarc::alignment
