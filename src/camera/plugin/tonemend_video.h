#pragma once

// The C interface of the plug-in library tonemend_video. Every function may be called from one thread; none
// blocks for longer than the milliseconds it is given, and tonemend_video_close for a tenth of a second,
// whatever the device or network does.

#ifdef __cplusplus
extern "C" {
#endif

struct TonemendVideo;

enum TonemendVideoKind { tonemend_video_device, tonemend_video_stream, tonemend_video_file };

enum TonemendVideoState {
    tonemend_video_waiting,  ///< opening, or no new frame yet
    tonemend_video_frame,    ///< a frame newer than the last one taken
    tonemend_video_gone,     ///< could not be opened, ended, or silent for longer than the timeout; close it
};

/// In the order in which they are best set: what is automatic before what it governs.
enum TonemendVideoControl {
    tonemend_video_exposure_automatic,
    tonemend_video_exposure,
    tonemend_video_gain,
    tonemend_video_white_balance_automatic,
    tonemend_video_white_balance_temperature,
    tonemend_video_focus_automatic,
    tonemend_video_focus,
};

/// Starts opening a device node, an address or a file; the work is done by a thread of its own. `timeout` in
/// milliseconds is the longest silence while opening or reading. A file repeats from its start and plays at
/// its own speed.
TonemendVideo* tonemend_video_open(const char* where, TonemendVideoKind kind, int timeout);

/// Waits for a frame and says what there is; with a frame also its size.
TonemendVideoState tonemend_video_wait(TonemendVideo* video, int milliseconds, int* width, int* height);

/// Copies the frame that tonemend_video_wait reported: height × width × 3 bytes R, G, B.
void tonemend_video_take(TonemendVideo* video, unsigned char* rgb);

/// Why it is gone, in a few words; valid until it is closed.
const char* tonemend_video_trouble(const TonemendVideo* video);

/// Reads a control into `value`; 1 when the device has it. Automatic ones are 0 or 1.
int tonemend_video_read_control(TonemendVideo* video, TonemendVideoControl control, double* value,
                                int milliseconds);
/// Sets it; 1 when the driver took it, which is no proof: read it back.
int tonemend_video_write_control(TonemendVideo* video, TonemendVideoControl control, double value,
                                 int milliseconds);

void tonemend_video_close(TonemendVideo* video);

#ifdef __cplusplus
}
#endif
