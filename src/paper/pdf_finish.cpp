// SPDX-License-Identifier: Apache-2.0
#include "paper/pdf_finish.hpp"

// Tells qpdf that its old pointer class is not used here.
#define POINTERHOLDER_TRANSITION 4

#include <fmt/format.h>

#include <exception>
#include <memory>
#include <qpdf/Buffer.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <qpdf/QPDFWriter.hh>
#include <set>

#include "base/utf8.hpp"

namespace duskwire::paper {
namespace {

std::string xml_text(const std::string& text) {
  std::string out;
  for (const char c : well_formed(text)) {
    if (c == '&') {
      out += "&amp;";
    } else if (c == '<') {
      out += "&lt;";
    } else if (c == '>') {
      out += "&gt;";
    } else {
      out += static_cast<unsigned char>(c) < 0x20 ? ' ' : c;
    }
  }
  return out;
}

std::string xmp_of(const TitleBlock& title) {
  std::string date = title.date.size() == 10 ? title.date + "T00:00:00Z" : "";
  if (!date.empty())
    date = fmt::format("<xmp:CreateDate>{0}</xmp:CreateDate><xmp:ModifyDate>{0}</xmp:ModifyDate>", date);
  return fmt::format(
      "<?xpacket begin=\"\xef\xbb\xbf\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n"
      "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\"><rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n"
      "<rdf:Description rdf:about=\"\" xmlns:dc=\"http://purl.org/dc/elements/1.1/\" "
      "xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\" xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\">\n"
      "<dc:format>application/pdf</dc:format>"
      "<dc:title><rdf:Alt><rdf:li xml:lang=\"x-default\">{}</rdf:li></rdf:Alt></dc:title>"
      "<dc:creator><rdf:Seq><rdf:li>{}</rdf:li></rdf:Seq></dc:creator>"
      "<dc:language><rdf:Bag><rdf:li>{}</rdf:li></rdf:Bag></dc:language>"
      "<xmp:CreatorTool>duskwire</xmp:CreatorTool>{}\n"
      "</rdf:Description></rdf:RDF></x:xmpmeta>\n<?xpacket end=\"r\"?>",
      xml_text(title.title), xml_text(title.owner.empty() ? title.made_by : title.owner), xml_text(title.language),
      date);
}

// The structure tree in reading order: figures get their words, table heads their scope.
class Tree {
 public:
  explicit Tree(const std::vector<std::string>& alternatives) : alternatives_(alternatives) {}

  void walk(QPDFObjectHandle node) {
    if (node.isArray()) {
      for (const QPDFObjectHandle& kid : node.getArrayAsVector()) walk(kid);
      return;
    }
    if (!node.isDictionary()) return;
    if (node.isIndirect() && !seen_.insert(node.getObjGen()).second) return;
    const std::string kind = node.getKey("/S").isName() ? node.getKey("/S").getName() : "";
    if (kind == "/Figure" && next_ < alternatives_.size()) {
      node.replaceKey("/Alt", QPDFObjectHandle::newUnicodeString(alternatives_[next_++]));
    }
    if (kind == "/TH") {
      QPDFObjectHandle scope = QPDFObjectHandle::newDictionary();
      scope.replaceKey("/O", QPDFObjectHandle::newName("/Table"));
      scope.replaceKey("/Scope", QPDFObjectHandle::newName("/Column"));
      node.replaceKey("/A", scope);
    }
    if (node.hasKey("/K")) walk(node.getKey("/K"));
  }

 private:
  const std::vector<std::string>& alternatives_;
  std::size_t next_ = 0;
  std::set<QPDFObjGen> seen_;
};

// The drawing library hangs all elements on the root; they belong to one document.
void put_under_document(QPDF& file, QPDFObjectHandle structure) {
  QPDFObjectHandle whole = file.makeIndirectObject(QPDFObjectHandle::newDictionary());
  whole.replaceKey("/Type", QPDFObjectHandle::newName("/StructElem"));
  whole.replaceKey("/S", QPDFObjectHandle::newName("/Document"));
  whole.replaceKey("/P", structure);
  QPDFObjectHandle kids = structure.getKey("/K");
  if (!kids.isArray()) {
    QPDFObjectHandle only = kids;
    kids = QPDFObjectHandle::newArray();
    kids.appendItem(only);
  }
  for (QPDFObjectHandle kid : kids.aitems()) {
    if (kid.isDictionary()) kid.replaceKey("/P", whole);
  }
  whole.replaceKey("/K", kids);
  structure.replaceKey("/K", whole);
}

}  // namespace

Result<std::string> finished_pdf(const std::string& pdf, const TitleBlock& title,
                                 const std::vector<std::string>& alternatives) {
  try {
    QPDF file;
    file.setSuppressWarnings(true);
    file.processMemoryFile("paper", pdf.data(), pdf.size());
    QPDFObjectHandle root = file.getRoot();
    root.replaceKey("/Lang", QPDFObjectHandle::newString(title.language));
    QPDFObjectHandle viewer = QPDFObjectHandle::newDictionary();
    viewer.replaceKey("/DisplayDocTitle", QPDFObjectHandle::newBool(true));
    root.replaceKey("/ViewerPreferences", viewer);
    QPDFObjectHandle marks = QPDFObjectHandle::newDictionary();
    marks.replaceKey("/Marked", QPDFObjectHandle::newBool(true));
    root.replaceKey("/MarkInfo", marks);
    QPDFObjectHandle xmp = QPDFObjectHandle::newStream(&file, xmp_of(title));
    xmp.getDict().replaceKey("/Type", QPDFObjectHandle::newName("/Metadata"));
    xmp.getDict().replaceKey("/Subtype", QPDFObjectHandle::newName("/XML"));
    root.replaceKey("/Metadata", xmp);
    QPDFObjectHandle structure = root.getKey("/StructTreeRoot");
    Tree(alternatives).walk(structure);
    if (structure.isDictionary()) put_under_document(file, structure);
    for (QPDFObjectHandle page : file.getAllPages()) {
      if (page.hasKey("/Annots")) page.replaceKey("/Tabs", QPDFObjectHandle::newName("/S"));
    }
    QPDFWriter writer(file);
    writer.setOutputMemory();
    writer.setDeterministicID(true);
    writer.setObjectStreamMode(qpdf_o_generate);
    writer.write();
    const std::unique_ptr<Buffer> bytes(writer.getBuffer());
    return std::string(reinterpret_cast<const char*>(bytes->getBuffer()), bytes->getSize());
  } catch (const std::exception&) {
    return Error{ErrorCode::unavailable,
                 "The PDF could not be finished: the drawing library wrote what cannot be read back."};
  }
}

}  // namespace duskwire::paper
