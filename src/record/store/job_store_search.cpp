#include <algorithm>
#include <iterator>
#include <sstream>

#include "record/store/job_store.h"
#include "record/store/store_rows.h"
#include "record/store/store_text.h"

namespace tonemend {
namespace {

class Conditions {
  public:
    void add(const std::string& condition, const std::string& words, int times = 1) {
        if (words.empty()) return;
        text_ += " AND " + condition;
        for (int i = 0; i < times; ++i) values_.emplace_back(pattern_for(words));
    }
    const std::string& text() const { return text_; }
    SqlRow& values() { return values_; }

  private:
    std::string text_ = "undone = ''";
    SqlRow values_;
};

// Names of areas are not kept folded: their letters are matched in either case as far as the database does.
constexpr const char* word_anywhere =
    "(folded LIKE ? ESCAPE '\\' OR uid IN (SELECT job FROM pieces WHERE (folded LIKE ? ESCAPE '\\' OR "
    "folded_wood LIKE ? ESCAPE '\\') AND undone = '') OR uid IN (SELECT p.job FROM areas a JOIN pieces p ON "
    "p.uid = a.piece WHERE lower(a.name) LIKE ? ESCAPE '\\' AND a.undone = '' AND p.undone = '') OR uid IN "
    "(SELECT p.job FROM steps s JOIN areas a ON a.uid = s.area JOIN pieces p ON p.uid = a.piece WHERE "
    "s.folded "
    "LIKE ? ESCAPE '\\' AND s.undone = '' AND a.undone = '' AND p.undone = ''))";

std::vector<std::string> split_words(const std::string& text) {
    std::istringstream stream(text);
    return {std::istream_iterator<std::string>(stream), {}};
}

std::string with_commas(const std::vector<std::string>& names) {
    std::string list;
    for (std::size_t i = 0; i < names.size(); ++i)
        if (!names[i].empty() && std::find(names.begin(), names.begin() + static_cast<std::ptrdiff_t>(i),
                                           names[i]) == names.begin() + static_cast<std::ptrdiff_t>(i))
            list += (list.empty() ? "" : ", ") + names[i];
    return list;
}

}  // namespace

std::vector<JobSummary> JobStore::search(const JobQuery& query) {
    const std::lock_guard lock(mutex_);
    Conditions where;
    where.add(
        "(folded LIKE ? ESCAPE '\\' OR uid IN (SELECT job FROM pieces WHERE folded LIKE ? ESCAPE '\\' AND "
        "undone = ''))",
        query.words, 2);
    where.add("uid IN (SELECT job FROM pieces WHERE folded LIKE ? ESCAPE '\\' AND undone = '')", query.piece);
    where.add("uid IN (SELECT job FROM pieces WHERE folded_wood LIKE ? ESCAPE '\\' AND undone = '')",
              query.wood);
    where.add(
        "uid IN (SELECT p.job FROM steps s JOIN areas a ON a.uid = s.area JOIN pieces p ON p.uid = a.piece "
        "WHERE s.folded LIKE ? ESCAPE '\\' AND s.undone = '' AND a.undone = '' AND p.undone = '')",
        query.colourant);
    for (const std::string& word : split_words(query.anywhere)) where.add(word_anywhere, word, 5);
    std::string condition = where.text();
    if (query.open_only) condition += " AND closed = ''";
    where.values().emplace_back(static_cast<std::int64_t>(query.most));
    std::vector<JobSummary> found;
    for (Job& job : read_all(*store_.database, "jobs", condition + " ORDER BY number DESC LIMIT ?",
                             where.values(), to_job))
        found.emplace_back().job = std::move(job);
    for (JobSummary& summary : found) {
        std::vector<std::string> names, woods;
        for (const Piece& piece : pieces(summary.job.uid))
            names.push_back(piece.name), woods.push_back(piece.wood);
        summary.pieces = with_commas(names), summary.woods = with_commas(woods);
        const auto readings = store_.database->row(
            "SELECT count(*) FROM readings WHERE job = ? AND undone = ''", {summary.job.uid});
        summary.readings = static_cast<int>(whole_in(readings->at(0)));
        const auto newest = store_.database->row(
            "SELECT taken, de2000 FROM readings WHERE job = ? AND undone = '' ORDER BY number DESC LIMIT 1",
            {summary.job.uid});
        if (newest) summary.newest = text_in(newest->at(0)), summary.de2000 = number_in(newest->at(1));
    }
    return found;
}

}  // namespace tonemend
