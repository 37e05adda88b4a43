#pragma once

#include "core/base/hash.h"
#include "core/base/ids.h"
#include "core/catalogue/gear.h"
#include "core/catalogue/lamp_type.h"
#include "core/catalogue/projector_model.h"
#include "core/catalogue/reading.h"

#include <QByteArray>
#include <QHash>
#include <QList>
#include <QString>

namespace coldarc::catalogue {

/// The bytes that were decided on, as the first entry of a visit keeps them.
struct Document {
    QByteArray text; ///< the file's exact bytes, UTF-8 JSON
    Hash hash;       ///< SHA-256 of them

    friend bool operator==(const Document&, const Document&) = default;
};

/// The lamp types, projector models and gear that the program knows. A value: it is loaded once and handed
/// round.
class Catalogue {
public:
    /// In the order of their files' names.
    [[nodiscard]] const QList<LampType>& lampTypes() const { return m_lampTypes; }
    [[nodiscard]] const QList<ProjectorModel>& models() const { return m_models; }
    /// In the order in which it is put on.
    [[nodiscard]] const QList<GearKind>& gear() const { return m_gear; }

    /// nullptr if there is none of this name. The pointer lives as long as this value is not changed.
    [[nodiscard]] const LampType* lampType(const LampTypeId& id) const;
    [[nodiscard]] const ProjectorModel* model(const ModelId& id) const;
    /// The type whose marking or package bears exactly this code; nullptr if none does.
    [[nodiscard]] const LampType* lampTypeWithCode(const QString& code) const;

    /// The file that a type or model came from; an empty document for one that is not there.
    [[nodiscard]] Document document(const LampTypeId& id) const { return m_lampTypeDocuments.value(id); }
    [[nodiscard]] Document document(const ModelId& id) const { return m_modelDocuments.value(id); }
    [[nodiscard]] const Document& gearDocument() const { return m_gearDocument; }

    /// For tests and for a visit that is rebuilt from its own first entry. An id that is there already is
    /// replaced.
    void add(const LampType& type, const Document& document);
    void add(const ProjectorModel& model, const Document& document);
    void setGear(const QList<GearKind>& gear, const Document& document);

private:
    QList<LampType> m_lampTypes;
    QList<ProjectorModel> m_models;
    QList<GearKind> m_gear;
    QHash<LampTypeId, Document> m_lampTypeDocuments;
    QHash<ModelId, Document> m_modelDocuments;
    Document m_gearDocument;
};

/// A catalogue and what was wrong with its files.
struct CatalogueLoading {
    Catalogue catalogue;
    QList<FileRemark> complaints; ///< each names a file that was refused
    QList<FileRemark> notices;    ///< each names a file that is used with a value of the house
};

/// Loads every *.json file of a folder. The key "kind" says what a file holds: lamp-type, projector-model or
/// gear. A bad file is refused as a whole, the others still load. Two files with the same id, or two lamp
/// types with a code in common, are both refused, since nobody can say which one is right. So is a model that
/// names a lamp type which did not load, and a second gear file; a folder without one is complained of.
[[nodiscard]] CatalogueLoading loadCatalogue(const QString& folder);

} // namespace coldarc::catalogue
