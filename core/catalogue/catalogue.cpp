#include "core/catalogue/catalogue.h"

#include "core/base/json.h"

#include <QDir>
#include <QFile>

#include <algorithm>
#include <map>
#include <vector>

using namespace Qt::StringLiterals;

namespace coldarc::catalogue {
namespace {

/// A file that could be read as what it says it is.
template<class T>
struct Loaded {
    QString file;
    T value;
    Document document;
};

struct Shelf {
    std::vector<Loaded<LampType>> lampTypes;
    std::vector<Loaded<ProjectorModel>> models;
    std::vector<Loaded<QList<GearKind>>> gear;
};

template<class T>
void keep(std::vector<Loaded<T>>& list, const QString& file, const Document& document,
          const Reading<T>& reading, CatalogueLoading& loading)
{
    for (const QString& line : reading.complaints)
        loading.complaints.append(remarkOn(file, line));
    for (const QString& line : reading.notices)
        loading.notices.append(remarkOn(file, line));
    if (reading.value)
        list.push_back({file, *reading.value, document});
}

void readFile(const QDir& folder, const QString& name, Shelf& shelf, CatalogueLoading& loading)
{
    QFile file(folder.filePath(name));
    if (!file.open(QIODevice::ReadOnly)) {
        loading.complaints.append({name, {}, u"cannot be read: %1"_s.arg(file.errorString())});
        return;
    }
    const QByteArray bytes = file.readAll();
    const Document document{bytes, sha256(bytes)};
    const auto object = parseObject(bytes);
    if (!object) {
        loading.complaints.append({name, {}, object.error().detail});
        return;
    }
    const QString kind = object->value(u"kind"_s).toString();
    if (kind == u"lamp-type"_s)
        keep(shelf.lampTypes, name, document, readLampType(*object), loading);
    else if (kind == u"projector-model"_s)
        keep(shelf.models, name, document, readModelOfCatalogue(*object), loading);
    else if (kind == u"gear"_s)
        keep(shelf.gear, name, document, readGear(*object), loading);
    else
        loading.complaints.append({name, u"kind"_s, u"must be one of lamp-type, projector-model, gear"_s});
}

/// Refuses every file that shares one of its keys with another file.
template<class T, class KeysOf>
void refuseShared(std::vector<Loaded<T>>& list, const QString& place, KeysOf keysOf,
                  CatalogueLoading& loading)
{
    std::map<QString, QStringList> filesOf;
    for (const auto& loaded : list) {
        for (const QString& key : keysOf(loaded.value))
            filesOf[key].append(loaded.file);
    }
    std::erase_if(list, [&](const Loaded<T>& loaded) {
        bool refused = false;
        for (const QString& key : keysOf(loaded.value)) {
            const QStringList& files = filesOf[key];
            if (files.size() < 2)
                continue;
            refused = true;
            loading.complaints.append(
                {loaded.file, place, u"%1 stands in more than one file: %2"_s.arg(key, files.join(u", "_s))});
        }
        return refused;
    });
}

void refuseUnknownTypes(Shelf& shelf, CatalogueLoading& loading)
{
    std::erase_if(shelf.models, [&](const Loaded<ProjectorModel>& loaded) {
        bool refused = false;
        for (const LampTypeId& wanted : loaded.value.lampTypes) {
            const bool known = std::ranges::any_of(
                shelf.lampTypes, [&](const Loaded<LampType>& type) { return type.value.id == wanted; });
            if (known)
                continue;
            refused = true;
            loading.complaints.append(
                {loaded.file, u"lamp_types"_s, u"no lamp type %1 was loaded"_s.arg(wanted.text())});
        }
        return refused;
    });
}

void placeGear(const Shelf& shelf, const QString& folder, CatalogueLoading& loading)
{
    if (shelf.gear.size() == 1) {
        loading.catalogue.setGear(shelf.gear.front().value, shelf.gear.front().document);
        return;
    }
    if (shelf.gear.empty())
        loading.complaints.append({folder, {}, u"no gear file was loaded"_s});
    for (const auto& loaded : shelf.gear)
        loading.complaints.append({loaded.file, u"kind"_s, u"there must be one gear file only"_s});
}

template<class Item, class Documents>
void put(QList<Item>& items, Documents& documents, const Item& item, const Document& document)
{
    const auto found = std::ranges::find(items, item.id, &Item::id);
    if (found != items.end())
        *found = item;
    else
        items.append(item);
    documents.insert(item.id, document);
}

template<class Item, class ItemId>
const Item* find(const QList<Item>& items, const ItemId& id)
{
    const auto found = std::ranges::find(items, id, &Item::id);
    return found == items.end() ? nullptr : &*found;
}

} // namespace

const LampType* Catalogue::lampType(const LampTypeId& id) const
{
    return find(m_lampTypes, id);
}

const ProjectorModel* Catalogue::model(const ModelId& id) const
{
    return find(m_models, id);
}

const LampType* Catalogue::lampTypeWithCode(const QString& code) const
{
    const auto found = std::ranges::find_if(m_lampTypes, [&](const LampType& type) {
        return type.code == code || type.packageCodes.contains(code);
    });
    return found == m_lampTypes.end() ? nullptr : &*found;
}

void Catalogue::add(const LampType& type, const Document& document)
{
    put(m_lampTypes, m_lampTypeDocuments, type, document);
}

void Catalogue::add(const ProjectorModel& model, const Document& document)
{
    put(m_models, m_modelDocuments, model, document);
}

void Catalogue::setGear(const QList<GearKind>& gear, const Document& document)
{
    m_gear = gear;
    m_gearDocument = document;
}

CatalogueLoading loadCatalogue(const QString& folder)
{
    CatalogueLoading loading;
    const QDir directory(folder);
    if (!directory.exists()) {
        loading.complaints.append({folder, {}, u"no such folder"_s});
        return loading;
    }
    Shelf shelf;
    for (const QString& name : directory.entryList({u"*.json"_s}, QDir::Files, QDir::Name))
        readFile(directory, name, shelf, loading);

    const auto idOf = [](const auto& item) { return QStringList{item.id.text()}; };
    refuseShared(shelf.lampTypes, u"id"_s, idOf, loading);
    refuseShared(shelf.models, u"id"_s, idOf, loading);
    const auto codesOf = [](const LampType& type) { return QStringList{type.code} + type.packageCodes; };
    refuseShared(shelf.lampTypes, u"code"_s, codesOf, loading);
    refuseUnknownTypes(shelf, loading);

    for (const auto& loaded : shelf.lampTypes)
        loading.catalogue.add(loaded.value, loaded.document);
    for (const auto& loaded : shelf.models)
        loading.catalogue.add(loaded.value, loaded.document);
    placeGear(shelf, folder, loading);
    return loading;
}

} // namespace coldarc::catalogue
