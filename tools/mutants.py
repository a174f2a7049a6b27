#!/usr/bin/env python3
# SPDX-License-Identifier: Apache-2.0
"""Would the store's tests notice? Plants one mistake at a time in a copy of src/store, links that before the release
build's own store and tests, and runs those that should fail (docs/validation.md, "The store").

tools/mutants.py [--list] [NAME...]   exit status 1 where a mistake was not noticed"""
import pathlib
import shutil
import subprocess
import sys
from collections import namedtuple

import coverage

ROOT = coverage.ROOT
BUILD = ROOT / "build/mutants"

Mutant = namedtuple("Mutant", "name file old new tests")
MUTANTS = [
    Mutant("commits are not synced", "database.cpp", '"PRAGMA synchronous = FULL"', '"PRAGMA synchronous = OFF"', "PowerCut.*"),
    Mutant("the file is not checked when it is opened", "database.cpp", 'if (finding != "ok")', "if (finding.empty())",
           "Damage.*:DamageSweep.*"),
    Mutant("indexes are not compared with their tables", "database.cpp",
           "if (!indexes_agree(database)) return damaged_file();", "", "Damage.*"),
    Mutant("an index may be out of order", "index_check.cpp", "if (!pass.ascends()) return false;", "", "IndexCheck.*"),
    Mutant("an index may hold other rows", "index_check.cpp", "if (pass.sums()[0] != expected[k]) return false;", "",
           "IndexCheck.*"),
    Mutant("bytes in an index are taken for the same text", "index_check.cpp",
           "    add(static_cast<std::uint64_t>(cell.type));\n", "", "IndexCheck.*"),
    Mutant("a fault of the disk is taken for damage", "database.cpp", "if (is_disk_fault(finding))",
           "if (finding.empty())", "IoFault.*"),
    Mutant("a log of another time is taken in", "database.cpp", "if (before && !leads_on(*database, *before))",
           "if (before && before->sequence < 0)", "DamageSweep.*"),
    Mutant("a damaged log is taken in", "database.cpp", 'if (is_log_damaged(read_bytes(path + "-wal")))',
           'if (path.empty())', "DamageSweep.*"),
    Mutant("a foreign trigger may stay", "database.cpp", "if (database.execAndGet(list).getString() != ",
           "if (database.execAndGet(list).getString().empty() && \"\" != ", "Damage.*"),
    Mutant("a later version's file is opened", "database.cpp", "if (version > schema_version)", "if (version > 99)",
           "Damage.*"),
    Mutant("the log of a refused file goes into it", "database.cpp", "SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 1, nullptr",
           "SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 0, nullptr", "DamageSweep.*"),
    Mutant("an upgrade is not one transaction", "database.cpp",
           "SQLite::Transaction transaction(database, SQLite::TransactionBehavior::IMMEDIATE);\n  database.exec(tables_2);",
           "database.exec(tables_2);\n  SQLite::Transaction transaction(database, "
           "SQLite::TransactionBehavior::IMMEDIATE);", "OldFiles.*"),
    Mutant("a stale save is stored", "workspace.cpp", "if (is_other_base(head, save.base_checksum)) return head;",
           "", "Workspace*:PowerCut.*"),
    Mutant("a repeated save is stored twice", "workspace.cpp",
           "if (const std::optional<Saved> before = earlier_answer(db, save)) return *before;",
           "static_cast<void>(earlier_answer);", "Workspace*:PowerCut.*"),
    Mutant("an answer comes before the commit", "workspace.cpp",
           "transaction.commit();\n    return SaveOutcome(std::move(saved));", "return SaveOutcome(std::move(saved));",
           "Workspace*"),
    Mutant("a changed document is served", "workspace.cpp",
           "if (checksum_of(result.id, result.revision, result.document) != result.checksum)",
           "if (result.id.empty())", "Damage.*"),
    Mutant("changed facts are listed", "workspace.cpp",
           "if (!is_sealed_revision(query) || !is_sealed_flag(db, row.id, row.archived)) return damaged_facts(row.id);",
           "", "Tamper.*"),
    Mutant("archiving leaves no event", "workspace.cpp", 'append_event(db, "archived", id, digest_of_flag(archived));', "",
           "Workspace*:PowerCut.*"),
    Mutant("events are not linked", "events.cpp", "return digest_of({chain, std::to_string(sequence)",
           "static_cast<void>(chain);\n  return digest_of({std::to_string(sequence)", "Tamper.*"),
    Mutant("rows are not counted", "events.cpp", "if (rows != events) wrong", "if (rows > events) wrong", "Tamper.*"),
    Mutant("a posted picture leads anywhere", "pictures.cpp", "if (!as_asked || ", "if (", "Tamper.*"),
    Mutant("the catalogue's conflicts are stored", "shop_catalogue.cpp",
           "if (is_other_base(head, save.base_checksum)) return head;", "", "*"),
    Mutant("the same number is taken for the same revision", "workspace_state.hpp",
           "(!base_checksum.empty() && base_checksum != head.current_checksum)", "false", "*"),
    Mutant("a failed sync is tried again", "workspace_state.hpp", "close_if(failure.getErrorCode() == SQLITE_IOERR);",
           "close_if(false);", "IoFault.*"),
    Mutant("an open transaction stays open", "workspace_state.hpp",
           "if (database && (must || sqlite3_get_autocommit(database->getHandle()) == 0)) database.reset();",
           "if (database && must) database.reset();", "MemoryFault.*"),
    Mutant("damage within the log is passed", "log_check.cpp", "if (commit_behind) return true;", "", "LogCheck.*"),
    Mutant("a new file's entry is not synced", "files.cpp", "(!is_new || sync_folder_of(path))", "(is_new || !is_new)",
           "KillPoints.*"),
    Mutant("a restored file is not synced", "restore.cpp", "&&\n        sync_file(part + ending)", "", "KillPoints.*"),
    Mutant("a restore begins under its lasting name", "restore.cpp", 'target + ".restoring"', "target", "KillPoints.*:Restore.*"),
    Mutant("a damaged backup is restored", "restore.cpp", "if (!wrong.value().empty())", "if (path.empty())", "Tamper.*"),
    Mutant("salvage believes what has no event", "salvage.cpp", "if (expected == digest) return true;", "return true;",
           "Tamper.*:DamageSweep.*"),
    Mutant("salvage takes a full disk for a broken row", "salvage.cpp", "    take(*row);",
           "    try {\n      take(*row);\n    } catch (const SQLite::Exception&) {\n    }", "RescueFaults.*"),
]


def noticed(mutant, objects_of, words):
    """The first test that failed; None where all passed. The copy lies before src in the list of folders."""
    shutil.rmtree(BUILD / "store", ignore_errors=True)
    (BUILD / "store").mkdir(parents=True)
    text = (ROOT / "src/store" / mutant.file).read_text()
    if text.count(mutant.old) != 1:
        sys.exit(f"tools/mutants.py: {mutant.file} holds what \"{mutant.name}\" changes {text.count(mutant.old)} times")
    (BUILD / "store" / mutant.file).write_text(text.replace(mutant.old, mutant.new))
    objects = objects_of(mutant)
    program = BUILD / "mutant"
    first = words.index("-o")
    link = ["c++", *map(str, objects), *words[1:first], "-o", str(program), *words[first + 2:],
            "-Wl,--allow-multiple-definition"]
    coverage.run(*link, cwd=coverage.RELEASE)
    # A mutant may also hang.
    try:
        ran = subprocess.run([program, "--gtest_brief=1", "--gtest_fail_fast", f"--gtest_filter={mutant.tests}"],
                             capture_output=True, text=True, timeout=300)
    except subprocess.TimeoutExpired:
        return "no end within 300 s"
    if ran.returncode == 0:
        return None
    failed = [line.split()[3].rstrip(",") for line in ran.stdout.splitlines() if line.startswith("[  FAILED  ]")]
    return failed[0] if failed else f"it ended with status {ran.returncode}"


def main():
    wanted = [word for word in sys.argv[1:] if word != "--list"]
    if "--list" in sys.argv:
        print("\n".join(mutant.name for mutant in MUTANTS))
        return
    coverage.run("tools/build", "release", "test_store", stdout=subprocess.DEVNULL)
    commands = coverage.commands_of("tests/test_store")
    flags = [f"-I{BUILD}", *coverage.flags_of(commands, "store"), "-w", "-O0"]
    words = coverage.link_words(commands)

    def objects_of(mutant):
        copied = BUILD / "store" / mutant.file
        sources = [copied]
        if copied.suffix == ".hpp":
            sources = [path for path in (ROOT / "src/store").glob("*.cpp")
                       if f'"store/{mutant.file}"' in path.read_text()]
        made = []
        for source in sources:
            made.append(BUILD / f"{source.stem}.o")
            coverage.run("c++", *flags, "-c", source, "-o", made[-1])
        return made

    seen = 0
    chosen = [mutant for mutant in MUTANTS if not wanted or mutant.name in wanted]
    for mutant in chosen:
        test = noticed(mutant, objects_of, words)
        seen += test is not None
        print(f"{'noticed' if test else 'MISSED '}  {mutant.name}: {test or mutant.tests}", flush=True)
    print(f"{seen} of {len(chosen)} noticed")
    sys.exit(0 if seen == len(chosen) else 1)


if __name__ == "__main__":
    main()
