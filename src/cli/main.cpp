// SPDX-License-Identifier: Apache-2.0
#include "cli/app.hpp"

int main(int argc, char** argv) { return duskwire::cli::run(argc, argv); }
