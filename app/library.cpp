#include "app/library.h"

#include <QDir>

namespace coldarc::app {

using namespace Qt::StringLiterals;

namespace {

/// Beside the program where it was installed, else in the source tree that it was built from.
QString folderOf(const QString& programFolder, const QString& name)
{
    const QDir installed(QDir(programFolder).filePath(u"../share/coldarc/"_s + name));
    return installed.exists() ? installed.absolutePath() : QStringLiteral(COLDARC_SOURCE_DIR "/") + name;
}

} // namespace

Library::Library(const QString& resources)
    : m_read(std::async(std::launch::async, [folder = QDir(resources)] {
                 Read read;
                 catalogue::CatalogueLoading loading =
                     catalogue::loadCatalogue(folder.filePath(u"catalogue"_s));
                 read.complaints = std::move(loading.complaints);
                 read.catalogue = std::move(loading.catalogue);
                 read.procedures =
                     procedure::readProcedures(folder.filePath(u"procedures"_s), read.catalogue);
                 read.limits = photometry::loadToleranceSets(folder.filePath(u"photometry"_s));
                 return read;
             }).share())
{
}

void Library::beginProof() const
{
    std::call_once(m_proofBegun, [this] {
        m_proved = std::async(std::launch::async, [read = m_read] {
                       return procedure::provedOf(read.get().procedures, read.get().catalogue);
                   }).share();
    });
}

bool Library::isWhole() const
{
    return m_proved.valid() && m_proved.wait_for(std::chrono::seconds(0)) == std::future_status::ready;
}

QStringList Library::complaints() const
{
    QStringList lines;
    for (const catalogue::FileRemark& remark : m_read.get().complaints + proved().complaints)
        lines << u"%1 %2: %3"_s.arg(remark.file, remark.place, remark.reason);
    for (const photometry::RefusedFile& refused : m_read.get().limits.refused)
        lines << u"%1: %2"_s.arg(refused.file, refused.reasons.join(u"; "_s));
    return lines;
}

QString resourcesFolder(const QString& programFolder)
{
    return folderOf(programFolder, u"resources"_s);
}

QString sampleDataFolder(const QString& programFolder)
{
    return folderOf(programFolder, u"sample-data"_s);
}

} // namespace coldarc::app
