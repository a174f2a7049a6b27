// SPDX-License-Identifier: Apache-2.0
// The resistances of the stock catalogue against tests/reference/conductors.csv: gauge cables against the gauge law
// with IACS copper at 20 C, metric ones against the maximum of IEC 60228 class 2.
#include <gtest/gtest.h>

#include <fstream>
#include <map>
#include <sstream>
#include <string>

#include "formats/catalogue_file.hpp"

namespace duskwire::formats {
namespace {

std::string text_of(const std::string& name) {
  std::ifstream file(std::string(DUSKWIRE_SOURCE_DIR) + name);
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

// ohm per km at 20 C by row id; the columns before it hold no commas.
std::map<std::string, double> reference_ohm_per_km() {
  std::map<std::string, double> ohm_per_km;
  std::istringstream lines(text_of("/tests/reference/conductors.csv"));
  std::string line;
  std::getline(lines, line);
  while (std::getline(lines, line)) {
    std::istringstream cells(line);
    std::string id;
    std::getline(cells, id, ',');
    std::string cell;
    for (int column = 1; column <= 8; ++column) std::getline(cells, cell, ',');
    ohm_per_km[id] = std::stod(cell);
  }
  return ohm_per_km;
}

// "12awg-2" -> "AWG12-solid-20", "2.5mm2-2" -> "2.5mm2-class2-20".
std::string row_of(const std::string& item) {
  const std::size_t awg = item.find("awg");
  if (awg != std::string::npos) return "AWG" + item.substr(0, awg) + "-solid-20";
  return item.substr(0, item.find("-2")) + "-class2-20";
}

TEST(StockCables, ResistancesAreThoseOfTheReferenceTable) {
  const ReadCatalogue stock = read_catalogue(text_of("/data/catalogue/stock.json"));
  ASSERT_TRUE(stock.catalogue);
  const auto reference = reference_ohm_per_km();
  ASSERT_EQ(stock.catalogue->cables.size(), 10u);
  for (const job::CableItem& cable : stock.catalogue->cables) {
    const auto row = reference.find(row_of(cable.id));
    ASSERT_NE(row, reference.end()) << cable.id;
    EXPECT_NEAR(cable.ohm_per_m_20c * 1000, row->second, row->second * 0.0001) << cable.id;
  }
}

}  // namespace
}  // namespace duskwire::formats
