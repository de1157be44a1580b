#include "record/export/job_pictures.h"

#include <fmt/format.h>

#include <exiv2/exiv2.hpp>

#include "picture/srgb_profile.h"
#include "picture/text_line.h"
#include "record/export/whole_stream.h"
#include "record/number_text.h"
#include "record/store/owners_folder.h"

namespace tonemend {
namespace {

namespace fs = std::filesystem;

/// What is said in a picture of itself.
struct PictureFacts {
    std::string title, description, taken, software;
};

// Exif writes "2026:11:25 10:09:00" (Exif 2.32, DateTimeOriginal).
std::string exif_moment(const std::string& moment) {
    std::string text = moment.substr(0, 19);
    for (char& c : text)
        if (c == '-') c = ':';
    if (text.size() == 19) text[10] = ' ';
    return text;
}

void describe(std::vector<std::byte>& file, const PictureFacts& facts) {
    auto image = Exiv2::ImageFactory::open(reinterpret_cast<const Exiv2::byte*>(file.data()),
                                           static_cast<long>(file.size()));
    image->readMetadata();
    if (!image->iccProfileDefined()) {
        const std::vector<std::uint8_t> profile = srgb_profile();
        Exiv2::DataBuf bytes(profile.data(), static_cast<long>(profile.size()));
        image->setIccProfile(bytes);
    }
    Exiv2::XmpData& xmp = image->xmpData();
    xmp["Xmp.dc.title"] = "lang=x-default " + facts.title;
    xmp["Xmp.dc.description"] = "lang=x-default " + facts.description;
    xmp["Xmp.xmp.CreatorTool"] = facts.software;
    xmp["Xmp.xmp.MetadataDate"] = facts.taken;
    image->exifData()["Exif.Image.ImageDescription"] = facts.description;
    image->exifData()["Exif.Image.Software"] = facts.software;
    if (facts.taken.size() >= 19)
        image->exifData()["Exif.Photo.DateTimeDigitized"] = exif_moment(facts.taken);
    image->writeMetadata();
    Exiv2::BasicIo& io = image->io();
    io.open();
    const auto* bytes = reinterpret_cast<const std::byte*>(io.mmap());
    file.assign(bytes, bytes + io.size());
}

}  // namespace

std::vector<std::string> write_job_pictures(JobStore& store, const Job& job, const fs::path& folder) {
    make_owners_folder(folder);
    std::vector<std::string> losses;
    const auto write = [&](const ReadingRecord& reading, const std::string& hash, const char* what,
                           const PictureFacts& facts) {
        if (hash.empty()) return;
        std::string file = fmt::format("job-{}-reading-{}{}", job.number, reading.number, what);
        try {
            const std::string kind = store.picture_kind(hash);
            std::vector<std::byte> bytes = store.picture(hash);
            if (kind == "png" || kind == "jpg" || kind == "jpeg" || kind == "tif" || kind == "tiff")
                describe(bytes, facts);
            write_owners_file(folder / (file + "." + kind), bytes);
        } catch (const InputError& error) {
            losses.push_back(fmt::format("{}: {}", file, error.what()));
        } catch (const Exiv2::Error& error) {
            losses.push_back(fmt::format("{}: {}", file, one_line(error.what())));
        }
    };
    for (const Piece& piece : store.pieces(job.uid))
        for (const Area& area : store.areas(piece.uid))
            for (const ReadingRecord& reading : store.readings(area.uid)) {
                PictureFacts facts{fmt::format("{}, {}", piece.name, area.name),
                                   fmt::format("Job {}, reading {}: ΔE2000 {:.1f} {}", job.number,
                                               reading.number, reading.de2000, interval_text(reading.u95)),
                                   reading.taken, reading.software};
                write(reading, reading.annotated, "-annotated", facts);
                write(reading, reading.source, "", facts);
            }
    return losses;
}

}  // namespace tonemend
