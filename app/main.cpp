#include "app/demo.h"
#include "app/label_command.h"
#include "app/opening_words.h"
#include "app/record_verify.h"
#include "app/report_command.h"
#include "app/trouble_window.h"
#include "app/usage.h"
#include "app/walk.h"
#include "app/workbench.h"
#include "core/base/json.h"
#include "ui/parts/text_label.h"

#include <QApplication>
#include <QCommandLineParser>
#include <QDir>
#include <QFile>
#include <QSettings>
#include <QStandardPaths>
#include <QVBoxLayout>

#include <algorithm>
#include <array>
#include <cstdio>
#include <sys/resource.h>

using namespace Qt::StringLiterals;
using namespace coldarc;

namespace {

constexpr int kAgain = 1000; // the event loop ended for a restore: the workspace is opened once more

QString tr(const char* text)
{
    return QApplication::translate("main", text);
}

/// A window of words alone: why there is nothing else to see.
std::unique_ptr<QWidget> wordsWindow(const QString& title, const QStringList& sentences)
{
    auto window = std::make_unique<QWidget>();
    window->setWindowTitle(u"Coldarc"_s);
    auto* column = new QVBoxLayout(window.get());
    column->setContentsMargins(56, 48, 56, 48);
    column->setSpacing(14);
    auto* name = new ui::TextLabel(ui::TextRole::Title, ui::Ink::Text, window.get());
    name->setText(title);
    column->addWidget(name);
    for (const QString& sentence : sentences) {
        auto* label = new ui::TextLabel(ui::TextRole::Body, ui::Ink::Text, window.get());
        label->setText(sentence);
        column->addWidget(label);
    }
    column->addStretch(1);
    window->resize(820, 360);
    return window;
}

/// Nothing else is to be seen; answers the status of the program.
/// @param restore  the backup that was asked for in place of the file; empty: the window was closed.
int showTrouble(const ui::Trouble& trouble, const QString& file, bool mayRestore, const Clock& clock,
                QString& restore)
{
    using May = app::TroubleWindow::MayRestore;
    app::TroubleWindow window(trouble, file, mayRestore ? May::Yes : May::No, clock);
    QObject::connect(&window, &app::TroubleWindow::restoreRequested, &window, [&](const QString& backup) {
        restore = backup;
        QApplication::exit(kAgain);
    });
    window.show();
    QApplication::exec();
    return 1;
}

QString demoFile(const Stamp& now)
{
    const QDir folder(QStandardPaths::writableLocation(QStandardPaths::AppDataLocation));
    folder.mkpath(u"."_s);
    // Its shows and lamps are of tonight, so each day has a demo of its own.
    const QString day = isoUtc(now.wall).left(10);
    return folder.filePath(u"demo-%1.coldarc"_s.arg(day));
}

/// Makes the demo unless today's is there. Answers why it is not there afterwards.
ui::Trouble makeSureOfDemo(const QString& file, const app::Folders& folders, const app::Library& library,
                           const Clock& clock)
{
    if (QFile::exists(file))
        return {};
    const auto window =
        wordsWindow(tr("The demo is being made"),
                    {tr("Invented cinemas, people, lamps and past visits, each entry by the rules that "
                        "real work goes by. This takes some seconds, once a day.")});
    window->show();
    QApplication::processEvents();
    RandomIds ids;
    app::DemoRecipe recipe{folders.sampleData, {library.catalogue(), library.proved()}, clock.now(), 1, ids};
    recipe.limits = library.toleranceSets();
    const auto made = app::makeDemo(file, recipe);
    if (made || made.error().kind == Error::Kind::Conflict) // another start of the program made it
        return {};
    std::fprintf(stderr, "the demo could not be made: %s\n", qUtf8Printable(made.error().detail));
    return app::demoTrouble(made.error().kind);
}

/// What the sign-in page of the demo says: who its invented people are, and their passphrases.
QStringList demoNote(const app::Folders& folders)
{
    QStringList note{tr("A demo. Every cinema, person, lamp and maker in it is invented.")};
    if (const auto people = app::readDemoPeople(folders.sampleData)) {
        for (const app::DemoPerson& one : people->people)
            note << tr("%1: passphrase \u201c%2\u201d").arg(one.person.name, one.passphrase);
        note << tr("%1, which vouches for keys: passphrase \u201c%2\u201d")
                    .arg(people->office, people->officePassphrase);
    }
    return note;
}

struct Run {
    QApplication& application;
    app::Outside outside;
    QString file;
    QString name; ///< of the demo; else empty
    QStringList note;
};

/// Opens the workspace and works in it until the window is closed.
/// @param said  what is to be told once it is open.
/// @param restore  the backup that was asked for; empty: the window was closed.
int workOnce(const Run& run, const ui::Trouble& said, QString& restore)
{
    store::OpenAnswer opened =
        store::openWorkspace(run.file, {run.outside.ids.next(), run.outside.clock.now().wall});
    if (!opened.database) {
        std::fprintf(stderr, "%s: %s\n", qUtf8Printable(run.file), qUtf8Printable(opened.detail));
        ui::Trouble trouble = app::openingTrouble(opened.outcome);
        if (said != ui::Trouble()) // of a backup that was to take its place
            trouble.kept = u"%1 %2"_s.arg(said.happened, trouble.kept);
        return showTrouble(trouble, run.file, app::mayRestore(opened.outcome), run.outside.clock, restore);
    }
    app::Workbench bench(run.outside, std::move(opened));
    if (!run.note.isEmpty())
        bench.setNote(run.name, run.note);
    if (said != ui::Trouble())
        bench.shell().say(said);
    QObject::connect(&bench, &app::Workbench::restoreRequested, &run.application, [&](const QString& backup) {
        restore = backup;
        QApplication::exit(kAgain);
    });
    run.application.installEventFilter(&bench.window());
    bench.window().show();
    return QApplication::exec();
}

int work(const Run& run)
{
    ui::Trouble said;
    for (;;) {
        QString restore;
        const int status = workOnce(run, said, restore);
        if (restore.isEmpty())
            return status;
        said = app::restoreTrouble(store::restore(restore, run.file));
    }
}

/// The options of the program, told and read.
void addOptions(QCommandLineParser& options)
{
    options.setApplicationDescription(tr("A workbench for replacing xenon short-arc lamps.\n\n"
                                         "Without a window:\n"
                                         "  %1\n      reads the bar codes of pictures of labels\n"
                                         "  %2\n      checks records of visits\n"
                                         "  %3\n      makes the report of a record, a PDF")
                                          .arg(QLatin1StringView(app::kLabelUsage),
                                               QLatin1StringView(app::kVerifyUsage),
                                               QLatin1StringView(app::kReportUsage)));
    options.addHelpOption();
    options.addVersionOption();
    options.addOption({u"workspace"_s, tr("The workspace file; it is made if there is none."), tr("file")});
    options.addOption({u"demo"_s, tr("Open an invented workspace to try things in.")});
    options.addOption(
        {u"walk"_s, tr("Walk the demo swap and leave pictures and the signed record there."), tr("folder")});
    options.addOption({u"settings"_s, tr("Where window size and theme are remembered."), tr("file")});
}

bool asksForWordsAlone(int argc, char** argv)
{
    static const QList<QByteArray> kWords{"-h", "--help", "--help-all", "-v", "--version"};
    return std::any_of(argv + 1, argv + argc, [](const char* one) { return kWords.contains(one); });
}

/// A command without a window; of a question how it is called the answer is that.
struct Command {
    const char* name;
    const char* usage;
    int (*run)(int argc, char** argv);
};

int runLabel(int argc, char** argv)
{
    const QCoreApplication bare(argc, argv); // no display is needed
    const QString folder = QCoreApplication::applicationDirPath();
    return app::labelCommand(QCoreApplication::arguments().mid(2), folder, app::resourcesFolder(folder));
}

int runVerify(int argc, char** argv)
{
    const QCoreApplication bare(argc, argv);
    return app::verifyCommand(QCoreApplication::arguments().mid(2), coldarc::SystemClock().now().wall);
}

int runReport(int argc, char** argv)
{
    std::array<char, 10> option{"-platform"};
    std::array<char, 10> offscreen{"offscreen"}; // it draws, and needs no display for that
    std::array<char*, 4> given{argv[0], option.data(), offscreen.data(), nullptr};
    int count = 3;
    const QGuiApplication bare(count, given.data());
    QStringList arguments;
    for (int index = 2; index < argc; ++index)
        arguments.append(QString::fromLocal8Bit(argv[index]));
    return app::reportCommand(arguments);
}

constexpr std::array<Command, 3> kCommands{{{"label", app::kLabelUsage, runLabel},
                                            {"verify", app::kVerifyUsage, runVerify},
                                            {"report", app::kReportUsage, runReport}}};

/// What the program holds in memory, open keys among it, goes into no file when it crashes.
void leaveNoCore()
{
    const rlimit none{0, 0};
    if (setrlimit(RLIMIT_CORE, &none) != 0)
        std::fputs("coldarc: the computer may write a core file on a crash\n", stderr);
}

} // namespace

int main(int argc, char** argv)
{
    leaveNoCore();
    QCoreApplication::setApplicationName(u"Coldarc"_s);
    QCoreApplication::setOrganizationName(u"Coldarc"_s);
    QCoreApplication::setApplicationVersion(QStringLiteral(COLDARC_VERSION));
    for (const Command& command : kCommands) {
        if (argc < 2 || QByteArrayView(argv[1]) != command.name)
            continue;
        if (!asksForWordsAlone(argc, argv))
            return command.run(argc, argv);
        std::puts(command.usage);
        return 0;
    }
    QCommandLineParser options;
    addOptions(options);
    if (asksForWordsAlone(argc, argv)) {
        const QCoreApplication bare(argc, argv);
        options.process(bare); // ends here
    }
    QApplication application(argc, argv);
    options.process(application);
    if (const QStringList stray = options.positionalArguments(); !stray.isEmpty()) {
        std::fprintf(stderr, "coldarc: \"%s\" is no command. A workspace is opened by --workspace FILE.\n",
                     qUtf8Printable(stray.first()));
        return 1;
    }

    const app::Folders folders{app::resourcesFolder(QApplication::applicationDirPath()),
                               app::sampleDataFolder(QApplication::applicationDirPath())};
    if (options.isSet(u"walk"_s))
        return app::walk(options.value(u"walk"_s), folders);

    const SystemClock clock;
    RandomIds ids;
    QSettings standing(QSettings::IniFormat, QSettings::UserScope, u"Coldarc"_s, u"Coldarc"_s);
    QSettings named(options.value(u"settings"_s), QSettings::IniFormat);
    QSettings& settings = options.isSet(u"settings"_s) ? named : standing;
    ui::Theme theme(application);
    theme.apply(ui::ThemeKind::Booth);
    const app::Library library(folders.resources);
    ui::BehindThreads threads;

    const bool isDemo = options.isSet(u"demo"_s);
    QString file = options.value(u"workspace"_s);
    if (file.isEmpty()) {
        const QDir folder(QStandardPaths::writableLocation(QStandardPaths::AppDataLocation));
        folder.mkpath(u"."_s);
        file = isDemo ? demoFile(clock.now()) : folder.filePath(u"workspace.coldarc"_s);
    }
    if (isDemo) {
        const ui::Trouble trouble = makeSureOfDemo(file, folders, library, clock);
        QString none;
        if (trouble != ui::Trouble())
            return showTrouble(trouble, file, false, clock, none);
    }
    const Run run{application,
                  {clock, ids, settings, theme, library, threads.behind()},
                  file,
                  isDemo ? tr("Coldarc demo") : QString(),
                  isDemo ? demoNote(folders) : QStringList()};
    return work(run);
}
