// SPDX-License-Identifier: Apache-2.0
// Put before each test program for Node: hides the global fetch, so that the .wasm file is read from the disk.
var fetch;
