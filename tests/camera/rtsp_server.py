"""An RTSP camera for the tests, by GStreamer's own server: a moving test picture as JPEG, on the local machine alone.
usage: rtsp_server.py PORT      0: any free one. Prints the port and serves rtsp://127.0.0.1:PORT/video until killed."""
import sys

import gi

gi.require_version("Gst", "1.0")
gi.require_version("GstRtspServer", "1.0")
from gi.repository import GLib, Gst, GstRtspServer  # noqa: E402

Gst.init(None)
factory = GstRtspServer.RTSPMediaFactory()
factory.set_launch(
    "( videotestsrc is-live=true pattern=ball ! video/x-raw,format=I420,width=320,height=240,framerate=50/1"
    " ! jpegenc ! rtpjpegpay name=pay0 )"
)
factory.set_shared(True)
server = GstRtspServer.RTSPServer()
server.set_address("127.0.0.1")
server.set_service(sys.argv[1])
server.get_mount_points().add_factory("/video", factory)
if server.attach(None) == 0:
    sys.exit("the port is taken")
print(server.get_bound_port(), flush=True)
GLib.MainLoop().run()
