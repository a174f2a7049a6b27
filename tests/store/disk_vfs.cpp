// SPDX-License-Identifier: Apache-2.0
#include "store/disk_vfs.hpp"

#include <algorithm>
#include <cstring>
#include <new>

namespace duskwire::store::testing {
namespace {

// SQLite gives the memory; the first member is its own.
struct OpenFile {
  sqlite3_file base;
  DiskVfs* vfs;
  std::string* name;
  bool remove_at_close;
};

OpenFile& file_of(sqlite3_file* file) { return *reinterpret_cast<OpenFile*>(file); }
DiskVfs& vfs_of(sqlite3_vfs* vfs) { return *static_cast<DiskVfs*>(vfs->pAppData); }

int close_file(sqlite3_file* handle) {
  OpenFile& file = file_of(handle);
  if (file.remove_at_close) file.vfs->perform({DiskStep::Kind::remove, *file.name, 0, {}});
  delete file.name;
  return SQLITE_OK;
}

int read_file(sqlite3_file* handle, void* to, int count, sqlite3_int64 offset) {
  OpenFile& file = file_of(handle);
  if (const int code = file.vfs->happens(DiskCall::read); code != SQLITE_OK) return code;
  const std::string& bytes = file.vfs->disk.bytes(*file.name);
  const auto begin = std::min<std::size_t>(static_cast<std::size_t>(offset), bytes.size());
  const auto there = std::min<std::size_t>(static_cast<std::size_t>(count), bytes.size() - begin);
  std::memcpy(to, bytes.data() + begin, there);
  if (there == static_cast<std::size_t>(count)) return SQLITE_OK;
  std::memset(static_cast<char*>(to) + there, 0, static_cast<std::size_t>(count) - there);
  return SQLITE_IOERR_SHORT_READ;
}

int write_file(sqlite3_file* handle, const void* from, int count, sqlite3_int64 offset) {
  OpenFile& file = file_of(handle);
  const int code = file.vfs->happens(DiskCall::write);
  // A write that fails has written some of it.
  const int written = code == SQLITE_OK ? count : count / 2;
  file.vfs->perform({DiskStep::Kind::write, *file.name, offset,
                     std::string(static_cast<const char*>(from), static_cast<std::size_t>(written))});
  return code;
}

int truncate_file(sqlite3_file* handle, sqlite3_int64 size) {
  OpenFile& file = file_of(handle);
  if (const int code = file.vfs->happens(DiskCall::truncate); code != SQLITE_OK) return code;
  file.vfs->perform({DiskStep::Kind::truncate, *file.name, size, {}});
  return SQLITE_OK;
}

int sync_file(sqlite3_file* handle, int) {
  OpenFile& file = file_of(handle);
  if (const int code = file.vfs->happens(DiskCall::sync); code != SQLITE_OK) {
    file.vfs->disk.fail_sync(*file.name);
    return code;
  }
  file.vfs->perform({DiskStep::Kind::sync, *file.name, 0, {}});
  return SQLITE_OK;
}

int size_of_file(sqlite3_file* handle, sqlite3_int64* size) {
  OpenFile& file = file_of(handle);
  if (const int code = file.vfs->happens(DiskCall::size); code != SQLITE_OK) return code;
  *size = static_cast<sqlite3_int64>(file.vfs->disk.bytes(*file.name).size());
  return SQLITE_OK;
}

int lock_file(sqlite3_file* handle, int) { return file_of(handle).vfs->happens(DiskCall::lock); }
int unlock_file(sqlite3_file*, int) { return SQLITE_OK; }
int check_lock(sqlite3_file*, int* locked) {
  *locked = 0;
  return SQLITE_OK;
}
int control_file(sqlite3_file*, int, void*) { return SQLITE_NOTFOUND; }
int sector_size(sqlite3_file*) { return 4096; }
// As SQLite's own for Unix: a write does not harm the bytes beside it.
int characteristics(sqlite3_file*) { return SQLITE_IOCAP_POWERSAFE_OVERWRITE; }

const sqlite3_io_methods methods = {
    1,         close_file,  read_file,  write_file,   truncate_file, sync_file,       size_of_file,
    lock_file, unlock_file, check_lock, control_file, sector_size,   characteristics, nullptr,
    nullptr,   nullptr,     nullptr,    nullptr,      nullptr};

int open_file(sqlite3_vfs* handle, const char* name, sqlite3_file* memory, int flags, int* flags_out) {
  DiskVfs& vfs = vfs_of(handle);
  memory->pMethods = nullptr;
  if (const int code = vfs.happens(DiskCall::open); code != SQLITE_OK) return SQLITE_CANTOPEN;
  const std::string path = name != nullptr ? name : "temporary-" + std::to_string(vfs.trace.size());
  if (!vfs.disk.exists(path)) {
    if ((flags & SQLITE_OPEN_CREATE) == 0) return SQLITE_CANTOPEN;
    vfs.perform({DiskStep::Kind::create, path, 0, {}});
    // The store makes its file itself and syncs the folder before SQLite sees it.
    if ((flags & SQLITE_OPEN_MAIN_DB) != 0) vfs.perform({DiskStep::Kind::sync, path, 0, {}});
  }
  OpenFile& file = file_of(memory);
  file.base.pMethods = &methods;
  file.vfs = &vfs;
  file.name = new std::string(path);
  file.remove_at_close = (flags & SQLITE_OPEN_DELETEONCLOSE) != 0;
  if (flags_out != nullptr) *flags_out = flags;
  return SQLITE_OK;
}

int remove_file(sqlite3_vfs* handle, const char* name, int sync_folder) {
  DiskVfs& vfs = vfs_of(handle);
  if (const int code = vfs.happens(DiskCall::remove); code != SQLITE_OK) return code;
  if (!vfs.disk.exists(name)) return SQLITE_IOERR_DELETE_NOENT;
  vfs.perform({DiskStep::Kind::remove, name, sync_folder, {}});
  return SQLITE_OK;
}

int access_file(sqlite3_vfs* handle, const char* name, int, int* answer) {
  DiskVfs& vfs = vfs_of(handle);
  if (const int code = vfs.happens(DiskCall::access); code != SQLITE_OK) return code;
  // SQLite's own takes a log without a byte for none.
  *answer = vfs.disk.exists(name) && !vfs.disk.bytes(name).empty() ? 1 : 0;
  return SQLITE_OK;
}

int full_path(sqlite3_vfs*, const char* name, int room, char* out) {
  sqlite3_snprintf(room, out, "%s", name);
  return SQLITE_OK;
}

int randomness(sqlite3_vfs* handle, int count, char* out) {
  for (int i = 0; i < count; ++i) out[i] = static_cast<char>(vfs_of(handle).dice());
  return count;
}

int sleep(sqlite3_vfs*, int microseconds) { return microseconds; }

int current_time(sqlite3_vfs*, double* julian_day) {
  *julian_day = 2461100.5;
  return SQLITE_OK;
}

int code_of(DiskCall call, int code) {
  if (code != SQLITE_IOERR) return code;
  switch (call) {
    case DiskCall::read:
      return SQLITE_IOERR_READ;
    case DiskCall::write:
      return SQLITE_IOERR_WRITE;
    case DiskCall::truncate:
      return SQLITE_IOERR_TRUNCATE;
    case DiskCall::sync:
      return SQLITE_IOERR_FSYNC;
    case DiskCall::size:
      return SQLITE_IOERR_FSTAT;
    case DiskCall::lock:
      return SQLITE_IOERR_LOCK;
    case DiskCall::remove:
      return SQLITE_IOERR_DELETE;
    case DiskCall::access:
      return SQLITE_IOERR_ACCESS;
    case DiskCall::open:
      return SQLITE_CANTOPEN;
  }
  return code;
}

}  // namespace

DiskVfs::DiskVfs(Disk start)
    : disk(std::move(start)), vfs_(std::make_unique<sqlite3_vfs>()), before_(sqlite3_vfs_find(nullptr)) {
  *vfs_ = {};
  vfs_->iVersion = 1;
  vfs_->szOsFile = sizeof(OpenFile);
  vfs_->mxPathname = 512;
  vfs_->zName = "duskwire-test-disk";
  vfs_->pAppData = this;
  vfs_->xOpen = open_file;
  vfs_->xDelete = remove_file;
  vfs_->xAccess = access_file;
  vfs_->xFullPathname = full_path;
  vfs_->xRandomness = randomness;
  vfs_->xSleep = sleep;
  vfs_->xCurrentTime = current_time;
  sqlite3_vfs_register(vfs_.get(), 1);
}

DiskVfs::~DiskVfs() {
  sqlite3_vfs_unregister(vfs_.get());
  sqlite3_vfs_register(before_, 1);
}

int DiskVfs::happens(DiskCall call) {
  const std::int64_t number = calls[static_cast<int>(call)]++;
  if (fault.at < 0 || call != fault.call) return SQLITE_OK;
  if (number != fault.at && !(fault.ever_after && number > fault.at)) return SQLITE_OK;
  ++faults_hit;
  return code_of(call, fault.code);
}

void DiskVfs::perform(DiskStep step) {
  disk.apply(step);
  trace.push_back(std::move(step));
}

}  // namespace duskwire::store::testing
