#include "tests/house_rules.hpp"

#include <algorithm>
#include <cctype>
#include <regex>
#include <sstream>
#include <utility>

namespace fairlead::house {

namespace {

// The package whose headers begin so. A package new to the project is added here.
const std::vector<std::pair<std::string_view, std::string_view>> package_of_prefix = {
    {"CGAL/", "CGAL::CGAL"},
    {"CLI/", "CLI11::CLI11"},
    {"Eigen/", "Eigen3::Eigen"},
    {"boost/", "Boost::headers"},
    {"fmt/", "fmt::fmt"},
    {"ft2build", "PkgConfig::FREETYPE"},
    {"hpdf", "hpdf::hpdf"},
    {"nettle/", "PkgConfig::NETTLE"},
    {"nlohmann/", "nlohmann_json::nlohmann_json"},
    {"tl/", "tl::expected"},
    {"toml++/", "tomlplusplus::tomlplusplus"},
};

// A word that code under `zone` may not hold, or a header it may not include, but for the files or folders `allowed`.
struct Ban {
  std::string_view zone;
  std::vector<std::string_view> words, headers, allowed;
  std::string_view why;
};
const std::vector<Ban> bans = {
    {"geometry/",
     {"std::cout", "std::cerr", "std::cin", "ifstream", "ofstream", "stringstream"},
     {"iostream", "fstream", "sstream", "ostream", "istream", "iomanip", "syncstream"},
     {},
     "geometry has no streams"},
    {"geometry/",
     {"fopen", "FILE", "std::filesystem"},
     {"filesystem", "fcntl.h", "unistd.h"},
     {"geometry/layout/", "geometry/sites/mapped_file.cpp"},
     "only the layout's reader opens files, and sites map theirs"},
    {"",
     {"system_clock", "steady_clock", "high_resolution_clock", "clock_gettime", "gettimeofday", "std::time",
      "time(nullptr)", "time(NULL)", "time(0)", "std::clock", "localtime", "gmtime", "strftime"},
     {"ctime", "time.h", "sys/time.h"},
     {},
     "nothing knows a clock"},
    {"", {"getenv", "secure_getenv", "environ"}, {}, {}, "nothing knows the environment"},
    {"", {"std::locale", "setlocale", "localeconv"}, {"locale", "clocale", "locale.h"}, {}, "nothing knows a locale"},
    {"", {"random_device", "rand", "srand", "random_shuffle"}, {}, {}, "random draws come from a stated seed"},
    {"",
     {"unordered_map", "unordered_set", "unordered_multimap", "unordered_multiset"},
     {"unordered_map", "unordered_set"},
     {},
     "a hash's order may not reach a result"},
    {"",
     {"std::thread", "std::jthread", "std::async", "pthread_create"},
     {"thread", "future"},
     {"geometry/tasks/work.cpp", "cli/interrupt.cpp"},
     "threads start in geometry/tasks/work.cpp, and the wait for Ctrl-C in cli/interrupt.cpp"},
    {"", {}, {"CGAL/"}, {"geometry/clearance/hull.cpp"}, "CGAL stays in one file of the product"},
};

// The text with its comments as blanks, and its literals too where asked; line numbers stay.
std::string blanked(const std::string& text, bool literals_too) {
  std::string out = text;
  const auto after = [&](std::string_view mark, std::size_t from) {
    const std::size_t at = text.find(mark, from);
    return at == std::string::npos ? text.size() : at + mark.size();
  };
  for (std::size_t i = 0, end = 0; i < text.size(); i = end) {
    end = i + 1;
    bool blank = literals_too;
    if (text.compare(i, 2, "//") == 0) {
      end = after("\n", i), blank = true;
    } else if (text.compare(i, 2, "/*") == 0) {
      end = after("*/", i + 2), blank = true;
    } else if (text.compare(i, 2, "R\"") == 0) {
      const std::size_t open = text.find('(', i);
      end = open == std::string::npos ? text.size() : after(")" + text.substr(i + 2, open - i - 2) + "\"", open);
    } else if (text[i] == '"' || text[i] == '\'') {
      while (end < text.size() && text[end] != text[i]) end += text[end] == '\\' ? 2 : 1;
      ++end;
    } else if (std::isalnum(static_cast<unsigned char>(text[i]))) {  // a word or number, with digit separators
      while (end < text.size() && (std::isalnum(static_cast<unsigned char>(text[end])) || text[end] == '\'')) ++end;
      blank = false;
    } else {
      blank = false;
    }
    end = std::min(end, text.size());
    for (std::size_t j = i; blank && j < end; ++j)
      if (text[j] != '\n') out[j] = ' ';
  }
  return out;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

struct Include {
  int line;
  std::string header;
};
std::vector<Include> includes_of(const std::string& text) {
  static const std::regex form(R"re(^\s*#\s*include\s*[<"]([^>"]+)[>"])re");
  std::vector<Include> includes;
  int number = 0;
  for (const std::string& line : lines_of(blanked(text, false))) {
    ++number;
    std::smatch match;
    if (line.find("include") != std::string::npos && std::regex_search(line, match, form))
      includes.push_back({number, match[1]});
  }
  return includes;
}

bool is_ours(std::string_view path) {
  return path.starts_with("geometry/") || path.starts_with("report/") || path.starts_with("cli/");
}
std::string folder_of(const std::string& file) { return file.substr(0, file.rfind('/')); }

// True where `word` stands in `line` and is no piece of a longer name.
bool mentions(std::string_view line, std::string_view word) {
  const auto in_name = [](char c) { return std::isalnum(static_cast<unsigned char>(c)) || c == '_'; };
  for (std::size_t at = line.find(word); at != std::string_view::npos; at = line.find(word, at + 1)) {
    const std::size_t end = at + word.size();
    const bool starts = at == 0 || !in_name(line[at - 1]) || !in_name(word.front());
    const bool ends = end == line.size() || !in_name(line[end]) || !in_name(word.back());
    if (starts && ends) return true;
  }
  return false;
}

}  // namespace

Parts parts_of(const std::string& cmake) {
  Parts parts;
  std::string text;
  for (const std::string& line : lines_of(cmake)) text += line.substr(0, line.find('#')) + "\n";
  static const std::regex call(R"(\bfairlead_part\(([^)]*)\))");
  for (std::sregex_iterator match(text.begin(), text.end(), call), end; match != end; ++match) {
    std::istringstream words((*match)[1]);
    Part part;
    words >> part.folder;
    std::set<std::string>* list = nullptr;
    for (std::string word; words >> word;) {
      if (word == "USES")
        list = &part.uses;
      else if (word == "PACKAGES")
        list = &part.packages;
      else if (list)
        list->insert(word);
    }
    parts.push_back(part);
  }
  return parts;
}

const Part* find_part(const Parts& parts, std::string_view folder) {
  for (const Part& part : parts)
    if (part.folder == folder) return &part;
  return nullptr;
}

Breaches uses_out_of_order(const Parts& parts) {
  Breaches breaches;
  std::set<std::string> before;
  for (const Part& part : parts) {
    for (const std::string& used : part.uses)
      if (!before.contains(used)) breaches.push_back({0, part.folder + " uses " + used + ", which comes no earlier"});
    before.insert(part.folder);
  }
  return breaches;
}

Breaches strange_includes(const std::string& file, const std::string& text, const Parts& parts) {
  const std::string folder = folder_of(file);
  const Part* part = find_part(parts, folder);
  if (!part) return {{0, "no fairlead_part(" + folder + ") in a CMakeLists.txt"}};
  const Part* ground = find_part(parts, "geometry/quantity");
  Breaches breaches;
  for (const auto& [line, header] : includes_of(text)) {
    if (is_ours(header)) {
      const std::string from = folder_of(header);
      if (from != folder && !part->uses.contains(from))
        breaches.push_back({line, "includes " + header + ", but " + folder + " does not USE " + from});
      continue;
    }
    std::string package;
    for (const auto& [prefix, owner] : package_of_prefix)
      if (header.starts_with(prefix)) package = owner;
    const bool standard = header.find_first_of("/.") == std::string::npos;
    const bool posix = (!folder.starts_with("geometry") || file == "geometry/sites/mapped_file.cpp") &&
                       (header == "unistd.h" || header == "fcntl.h" || header.starts_with("sys/"));
    if (package.empty() && !standard && !posix)
      breaches.push_back({line, "includes " + header + ", of no known package: write our own from the top folder"});
    if (!package.empty() && !part->packages.contains(package) && !(ground && ground->packages.contains(package)))
      breaches.push_back({line, "includes " + header + ", but " + folder + " does not name PACKAGES " + package});
  }
  return breaches;
}

Breaches banned(const std::string& file, const std::string& text) {
  Breaches breaches;
  const std::vector<Include> includes = includes_of(text);
  const std::vector<std::string> code = lines_of(blanked(text, true));
  for (const Ban& ban : bans) {
    const bool allowed = std::any_of(ban.allowed.begin(), ban.allowed.end(),
                                     [&](std::string_view place) { return file.starts_with(place); });
    if (!file.starts_with(ban.zone) || allowed) continue;
    for (const auto& [line, header] : includes)
      for (const std::string_view no : ban.headers)
        if (header == no || (no.ends_with('/') && header.starts_with(no)))
          breaches.push_back({line, header + ": " + std::string(ban.why)});
    for (std::size_t i = 0; i < code.size(); ++i)
      for (const std::string_view no : ban.words)
        if (mentions(code[i], no))
          breaches.push_back({static_cast<int>(i) + 1, std::string(no) + ": " + std::string(ban.why)});
  }
  return breaches;
}

Breaches heavy_headers(const std::string& file, const std::string& text) {
  Breaches breaches;
  if (!file.ends_with(".hpp")) return breaches;
  for (const auto& [line, header] : includes_of(text))
    if (header.starts_with("CGAL/") || header == "Eigen/Dense")
      breaches.push_back({line, header + " in a header: it costs seconds in every file that sees it"});
  return breaches;
}

Breaches too_long(const std::string& text) {
  const std::size_t lines = lines_of(text).size();
  if (lines <= 400) return {};
  return {{static_cast<int>(lines), "the file has more than 400 lines"}};
}

Breaches unlisted(const std::string& type, const std::string& text, const std::string& list) {
  const std::regex definition("\\bconst " + type + R"( (\w+)\s*=?\s*\{)");
  Breaches breaches;
  int number = 0;
  for (const std::string& line : lines_of(blanked(text, true))) {
    ++number;
    std::smatch match;
    if (std::regex_search(line, match, definition) && !mentions(blanked(list, true), match[1].str()))
      breaches.push_back({number, match[1].str() + " is missing from list.cpp"});
  }
  return breaches;
}

}  // namespace fairlead::house
