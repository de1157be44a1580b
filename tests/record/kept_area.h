#pragma once

#include <functional>
#include <nlohmann/json.hpp>

#include "record/store/area_readings.h"
#include "tests/support/scratch_folder.h"

namespace tonemend::testing {

/// The standing area of a store in a folder of its own, and ways past its back.
struct KeptArea {
    std::shared_ptr<JobStore> store() const { return readings.store(); }
    ReadingRecord record(int number) const {
        for (const ReadingRecord& record : store()->readings(readings.area()))
            if (record.number == number) return record;
        return {};
    }
    std::string text(int number) const { return store()->reading_text(record(number).uid); }
    nlohmann::json json(int number) const { return nlohmann::json::parse(text(number)); }
    /// As damage or another program might leave it.
    void put_text(int number, const std::string& text) const {
        store()->parts().database->execute("UPDATE readings SET text = ? WHERE uid = ?",
                                           {text, record(number).uid});
    }
    void change(int number, const std::function<void(nlohmann::json&)>& what) const {
        nlohmann::json changed = json(number);
        what(changed);
        put_text(number, changed.dump());
    }
    std::filesystem::path picture_file(const std::string& hash) const {
        return folder /
               ("jobs.sqlite.pictures/" + hash.substr(0, 2) + "/" + hash + "." + store()->picture_kind(hash));
    }
    /// The picture that reading was measured in.
    std::filesystem::path source_file(int number) const { return picture_file(record(number).source); }

    ScratchFolder folder;
    AreaChoice choice{{folder / "jobs.sqlite", {}}, "", "Bench"};
    AreaReadings readings{choice};
};

}  // namespace tonemend::testing
