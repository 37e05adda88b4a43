#include "core/alignment/scan_record.h"

#include <algorithm>
#include <cmath>

namespace coldarc::alignment {

namespace {

Eighths endOf(const ScanRecord& scan, double towards)
{
    return scan.middle + (towards < 0 ? -kEndOfScan : kEndOfScan) * scan.step;
}

Eighths rounded(const ScanRecord& scan, double position)
{
    return scan.middle + Eighths{static_cast<int>(std::lround(position))};
}

bool isInside(const ScanRecord& scan, double position)
{
    const auto [least, most] = std::ranges::minmax(scan.points, {}, &ScanPoint::position);
    return position >= least.position && position <= most.position;
}

} // namespace

bool isSet(const ScanRecord& scan)
{
    return scan.verdict == ScanVerdict::Peak || scan.verdict == ScanVerdict::SetOnly;
}

bool tellsNoise(const ScanRecord& scan)
{
    return scan.cycle > 0 && scan.fit && !scan.isSkewed;
}

void leaveOut(ScanRecord& scan, std::size_t point)
{
    scan.leftOut.push_back(scan.points[point]);
    scan.points.erase(scan.points.begin() + static_cast<std::ptrdiff_t>(point));
    scan.entries.erase(scan.entries.begin() + static_cast<std::ptrdiff_t>(point));
}

FitOutcome fitRecord(ScanRecord& scan, const Scatter& others)
{
    FitOutcome fit = fitScan(scan.points, others);
    if (!fit || scan.order != Order::UpAndBack9)
        return fit;
    scan.backlash = backlashOf(scan.points, others);
    if (!scan.backlash)
        return fit;
    return fitScan(withoutBacklash(scan.points, std::max(0.0, scan.backlash->eighths)), others);
}

void judgeBeforeWait(ScanRecord& scan)
{
    scan.verdict = ScanVerdict::SetOnly;
    const auto brightest = std::ranges::max_element(scan.points, {}, &ScanPoint::light);
    scan.setting = rounded(scan, brightest->position);
    if (!scan.fit || scan.fit->curvature >= 0)
        return;
    const double top = -scan.fit->slope / (2 * scan.fit->curvature);
    scan.setting = isInside(scan, top) ? rounded(scan, top) : endOf(scan, top);
}

std::optional<Vertex> vertexOfRecord(const ScanRecord& scan, const Scatter& known)
{
    const auto vertex = vertexOf(*scan.fit, known);
    return vertex && scan.backlash ? widenedBy(*vertex, *scan.backlash) : vertex;
}

void judgeAfterWait(ScanRecord& scan, const Scatter& others)
{
    scan.setting = scan.middle;
    if (!scan.fit) {
        scan.verdict = ScanVerdict::Refused;
        return;
    }
    const Scatter known = others + scan.fit->scatter;
    scan.vertex = vertexOfRecord(scan, known);
    if (scan.vertex && isInside(scan, scan.vertex->at)) {
        scan.verdict = ScanVerdict::Peak;
        scan.setting = rounded(scan, scan.vertex->at);
    } else if (scan.vertex) {
        scan.verdict = ScanVerdict::Recentre;
        scan.setting = endOf(scan, scan.vertex->at);
    } else if (isSloping(*scan.fit, known)) {
        scan.verdict = ScanVerdict::Recentre;
        scan.setting = endOf(scan, scan.fit->slope);
    } else {
        scan.verdict = ScanVerdict::Widen;
    }
}

} // namespace coldarc::alignment
