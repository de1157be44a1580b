#include <new>

#include "picture/encoders.h"
#include "picture/input_error.h"
#include "picture/tiff_memory.h"

namespace tonemend {

EncodedBytes encode_tiff(const Frame& frame, const WriteOptions& options) {
    if (frame.samples.size() > (std::size_t{3} << 30))
        throw InputError("the picture is too large for a TIFF file; write a smaller one");
    TiffMemory memory;
    TIFF* const tiff = memory.get();
    if (!tiff) throw std::bad_alloc();
    const auto bits = static_cast<int>(8 * frame.bytes_per_sample());
    TIFFSetField(tiff, TIFFTAG_IMAGEWIDTH, frame.width);
    TIFFSetField(tiff, TIFFTAG_IMAGELENGTH, frame.height);
    TIFFSetField(tiff, TIFFTAG_SAMPLESPERPIXEL, 3);
    TIFFSetField(tiff, TIFFTAG_BITSPERSAMPLE, bits);
    TIFFSetField(tiff, TIFFTAG_SAMPLEFORMAT,
                 frame.type == SampleType::float32 ? SAMPLEFORMAT_IEEEFP : SAMPLEFORMAT_UINT);
    TIFFSetField(tiff, TIFFTAG_PHOTOMETRIC, PHOTOMETRIC_RGB);
    TIFFSetField(tiff, TIFFTAG_PLANARCONFIG, PLANARCONFIG_CONTIG);
    TIFFSetField(tiff, TIFFTAG_COMPRESSION, COMPRESSION_NONE);
    TIFFSetField(tiff, TIFFTAG_ORIENTATION, ORIENTATION_TOPLEFT);
    TIFFSetField(tiff, TIFFTAG_ROWSPERSTRIP, TIFFDefaultStripSize(tiff, 0));
    if (!options.icc_profile.empty())
        TIFFSetField(tiff, TIFFTAG_ICCPROFILE, static_cast<std::uint32_t>(options.icc_profile.size()),
                     options.icc_profile.data());
    for (int y = 0; y < frame.height; ++y) {
        // libtiff takes the row as writable but, on machines of the file's own byte order, only reads it.
        void* const row = const_cast<std::byte*>(frame.row(y));
        if (TIFFWriteScanline(tiff, row, static_cast<std::uint32_t>(y), 0) < 0)
            throw InputError("cannot be written as TIFF (" + memory.error() + ")");
    }
    return memory.finish();
}

}  // namespace tonemend
