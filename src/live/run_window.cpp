#include "live/run_window.h"

#include <epoxy/gl.h>
// After the loader.
#include <GLFW/glfw3.h>
#include <backends/imgui_impl_glfw.h>
#include <backends/imgui_impl_opengl3.h>
#include <imgui.h>

#include <cctype>
#include <cmath>
#include <deque>
#include <optional>
#include <utility>
#include <variant>

#include "camera/video_plugin.h"
#include "live/display_choice.h"
#include "live/status_file.h"
#include "live/window_view.h"
#include "picture/input_error.h"

namespace tonemend {
namespace {

using Clock = std::chrono::steady_clock;

// What GLFW's callbacks leave for the loop.
struct Events {
    std::deque<Action> actions;
    bool typing = false;  // keys are text: they go here, in order
    std::deque<std::variant<char32_t, DeskKey>> typed;
    std::vector<std::string> dropped;
    int redraw = 3;  // drawings still owed: what a click changes is laid out in the drawing after it
};

Events& events_of(GLFWwindow* window) {
    return *static_cast<Events*>(glfwGetWindowUserPointer(window));
}

std::optional<DeskKey> desk_key(int key, int scancode, bool control) {
    if (control) {
        const char* name = glfwGetKeyName(key, scancode);
        switch (name == nullptr || name[1] != '\0' ? 0 : std::toupper(static_cast<unsigned char>(name[0]))) {
            case 'N':
                return DeskKey::start;
            case 'A':
                return DeskKey::add;
            case 'D':
                return DeskKey::close;
            case 'R':
                return DeskKey::copy;
            case 'Z':
                return DeskKey::undo;
            default:
                return std::nullopt;
        }
    }
    switch (key) {
        case GLFW_KEY_UP:
            return DeskKey::earlier;
        case GLFW_KEY_DOWN:
        case GLFW_KEY_TAB:
            return DeskKey::later;
        case GLFW_KEY_LEFT:
            return DeskKey::left;
        case GLFW_KEY_RIGHT:
            return DeskKey::right;
        case GLFW_KEY_ENTER:
        case GLFW_KEY_KP_ENTER:
            return DeskKey::enter;
        case GLFW_KEY_BACKSPACE:
            return DeskKey::rub_out;
        case GLFW_KEY_ESCAPE:
            return DeskKey::leave;
        default:
            return std::nullopt;
    }
}

void on_text(GLFWwindow* window, unsigned point) {
    Events& events = events_of(window);
    events.redraw = 3;
    if (events.typing) events.typed.push_back(static_cast<char32_t>(point));
}

void on_key(GLFWwindow* window, int key, int scancode, int action, int modifiers) {
    Events& events = events_of(window);
    events.redraw = 3;
    if (action == GLFW_RELEASE) return;
    if (events.typing) {
        const bool control = (modifiers & GLFW_MOD_CONTROL) != 0;
        if (const auto desk = desk_key(key, scancode, control)) return events.typed.push_back(*desk);
        // Function keys go from page to page, and Ctrl Q leaves; all else is text.
        if ((key < GLFW_KEY_F1 || key > GLFW_KEY_F12) && !control) return;
    }
    const Modifier modifier = (modifiers & GLFW_MOD_CONTROL) != 0 ? Modifier::control
                              : (modifiers & GLFW_MOD_SHIFT) != 0 ? Modifier::shift
                                                                  : Modifier::none;
    // Letters and signs as the person's own keyboard prints them.
    int printed = key;
    const bool keypad = key >= GLFW_KEY_KP_0 && key <= GLFW_KEY_KP_EQUAL;
    if (const char* name = keypad ? nullptr : glfwGetKeyName(key, scancode);
        name != nullptr && name[1] == '\0')
        printed = std::toupper(static_cast<unsigned char>(name[0]));
    auto found = find_action(printed, modifier);
    if (!found) found = find_action(key, modifier);  // digits that need Shift on this keyboard
    if (!found) return;
    // A key held down moves and zooms on, and takes no second reading.
    const bool repeats = (*found >= Action::move_left && *found <= Action::zoom_out);
    if (action == GLFW_REPEAT && !repeats) return;
    events.actions.push_back(*found);
}

void on_drop(GLFWwindow* window, int count, const char** paths) {
    Events& events = events_of(window);
    for (int i = 0; i < count; ++i) events.dropped.emplace_back(paths[i]);
    events.redraw = 3;
}

class GlfwSession {
  public:
    GlfwSession() {
        glfwSetErrorCallback(nullptr);
        if (glfwInit() != GLFW_TRUE)
            throw InputError(
                "no display to open the window on; log in at a screen, or measure without one with 'tonemend "
                "compare'");
    }
    ~GlfwSession() { glfwTerminate(); }
    GlfwSession(const GlfwSession&) = delete;
    GlfwSession& operator=(const GlfwSession&) = delete;
};

class Screen {
  public:
    Screen(const Settings& settings, Events& events) {
        glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 3);
        glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, 3);
        glfwWindowHint(GLFW_OPENGL_PROFILE, GLFW_OPENGL_CORE_PROFILE);
        glfwWindowHint(GLFW_OPENGL_FORWARD_COMPAT, GLFW_TRUE);
        window_ = glfwCreateWindow(settings.width, settings.height, "Tonemend", nullptr, nullptr);
        if (window_ == nullptr)
            throw InputError(
                "this display offers no OpenGL 3.3; install the graphics driver (or Mesa's software one), or "
                "measure "
                "without a window with 'tonemend compare'");
        glfwSetWindowSizeLimits(window_, 640, 400, GLFW_DONT_CARE, GLFW_DONT_CARE);
        glfwMakeContextCurrent(window_);
        glfwSwapInterval(1);
        glfwSetWindowUserPointer(window_, &events);
        glfwSetKeyCallback(window_, on_key);
        glfwSetCharCallback(window_, on_text);
        glfwSetDropCallback(window_, on_drop);
        glfwSetCursorPosCallback(window_, [](GLFWwindow* w, double, double) { events_of(w).redraw = 3; });
        glfwSetMouseButtonCallback(window_, [](GLFWwindow* w, int, int, int) { events_of(w).redraw = 3; });
        glfwSetScrollCallback(window_, [](GLFWwindow* w, double, double) { events_of(w).redraw = 3; });
        glfwSetFramebufferSizeCallback(window_, [](GLFWwindow* w, int, int) { events_of(w).redraw = 3; });
        glfwSetWindowRefreshCallback(window_, [](GLFWwindow* w) { events_of(w).redraw = 3; });
        ImGui::CreateContext();
        ImGui::GetIO().IniFilename = nullptr;
        ImGui_ImplGlfw_InitForOpenGL(window_, true);  // passes events on to the callbacks above
        ImGui_ImplOpenGL3_Init("#version 330");
    }
    ~Screen() {
        ImGui_ImplOpenGL3_Shutdown();
        ImGui_ImplGlfw_Shutdown();
        ImGui::DestroyContext();
        glfwDestroyWindow(window_);
    }
    Screen(const Screen&) = delete;
    Screen& operator=(const Screen&) = delete;

    GLFWwindow* window() const { return window_; }

  private:
    GLFWwindow* window_ = nullptr;
};

// Drawings and captured frames of the last second or so.
class PaceMeter {
  public:
    void drawn(Clock::time_point began, std::uint64_t captured) {
        const auto now = Clock::now();
        ++drawings_;
        busy_ += std::chrono::duration<double, std::milli>(now - began).count();
        const double seconds = std::chrono::duration<double>(now - since_).count();
        if (seconds < 1) return;
        pace_ = {drawings_ / seconds, busy_ / drawings_, static_cast<double>(captured - captured_) / seconds};
        since_ = now, drawings_ = 0, busy_ = 0, captured_ = captured;
    }
    const DrawingPace& pace() const { return pace_; }

  private:
    Clock::time_point since_ = Clock::now();
    int drawings_ = 0;
    double busy_ = 0;
    std::uint64_t captured_ = 0;
    DrawingPace pace_;
};

// Fonts and layout for the window as it is; made anew only when something changed.
class Setting {
  public:
    void update(const Bench& bench, GLFWwindow* window) {
        int width = 0, height = 0;
        glfwGetFramebufferSize(window, &width, &height);
        float points_x = 1, points_y = 1;
        glfwGetWindowContentScale(window, &points_x, &points_y);
        scale = points_x * static_cast<float>(bench.settings().text_scale);
        layout =
            lay_out(WindowView::request(bench, static_cast<float>(width), static_cast<float>(height), scale));
        if (layout.body == made_for_.body && layout.huge == made_for_.huge) return;
        fonts = load_fonts(layout);
#if IMGUI_VERSION_NUM < 19200  // from then on the renderer follows the fonts by itself
        ImGui_ImplOpenGL3_DestroyFontsTexture();
        ImGui_ImplOpenGL3_CreateFontsTexture();
#endif
        made_for_ = layout;
    }
    float scale = 1;
    Layout layout;
    Fonts fonts;

  private:
    Layout made_for_;
};

// The display that the window is on, asked anew when the window has moved to another or the settings change.
class DisplayWatch {
  public:
    void update(Bench& bench, GLFWwindow* window, WindowView& view) {
        const int monitor = monitor_under(window);
        const std::string& path = bench.settings().display;
        const ThemeName name = bench.settings().theme;
        if (!colours_ || monitor != monitor_ || path != path_) {
            DisplayChoice choice = choose_display(path, monitor);
            if (!choice.trouble.empty()) bench.say(choice.trouble);
            bench.set_display_name(choice.name);
            colours_ = ScreenColours(std::move(choice.table));
        } else if (name == name_) {
            return;
        }
        monitor_ = monitor, path_ = path, name_ = name;
        view.set_display(*colours_, name);
    }

  private:
    // The monitor that holds the window's middle; X counts them in the same order.
    static int monitor_under(GLFWwindow* window) {
        int x = 0, y = 0, width = 0, height = 0, count = 0;
        glfwGetWindowPos(window, &x, &y);
        glfwGetWindowSize(window, &width, &height);
        GLFWmonitor** monitors = glfwGetMonitors(&count);
        for (int i = 0; i < count; ++i) {
            int left = 0, top = 0;
            glfwGetMonitorPos(monitors[i], &left, &top);
            const GLFWvidmode* mode = glfwGetVideoMode(monitors[i]);
            if (mode == nullptr) continue;
            const int right = x + width / 2 - left, down = y + height / 2 - top;
            if (right >= 0 && down >= 0 && right < mode->width && down < mode->height) return i;
        }
        return 0;
    }

    std::optional<ScreenColours> colours_;
    int monitor_ = 0;
    std::string path_;
    ThemeName name_ = ThemeName::dark;
};

void clear(GLFWwindow* window, const Theme& theme) {
    int width = 0, height = 0;
    glfwGetFramebufferSize(window, &width, &height);
    glViewport(0, 0, width, height);
    const Shade& s = theme.surround;
    glClearColor(static_cast<float>(s.r) / 255.0F, static_cast<float>(s.g) / 255.0F,
                 static_cast<float>(s.b) / 255.0F, 1);
    glClear(GL_COLOR_BUFFER_BIT);
}

// Points of the window become framebuffer pixels, so that one unit serves everywhere.
void use_pixels(GLFWwindow* window) {
    ImGuiIO& io = ImGui::GetIO();
    int width = 0, height = 0, points = 0, points_down = 0;
    glfwGetFramebufferSize(window, &width, &height);
    glfwGetWindowSize(window, &points, &points_down);
    io.DisplaySize = {static_cast<float>(width), static_cast<float>(height)};
    io.DisplayFramebufferScale = {1, 1};
    if (points > 0 && points != width) {
        double x = 0, y = 0;
        glfwGetCursorPos(window, &x, &y);
        const double ratio = static_cast<double>(width) / points;
        io.MousePos = {static_cast<float>(x * ratio), static_cast<float>(y * ratio)};
    }
}

void run_loop(Bench& bench, Screen& screen, Events& events) {
    GLFWwindow* window = screen.window();
    WindowView view;
    Setting setting;
    DisplayWatch display;
    StatusFile status;
    PaceMeter meter;
    std::uint64_t drawn_revision = ~0ULL, drawn_frame = ~0ULL;
    std::string drawn_notice, drawn_before;
    while (!bench.quitting() && glfwWindowShouldClose(window) == 0) {
        if (events.redraw > 0) {
            glfwPollEvents();
        } else {
            glfwWaitEventsTimeout(0.5);
        }
        for (const auto& typed : std::exchange(events.typed, {})) {
            if (const auto* key = std::get_if<DeskKey>(&typed))
                bench.press_desk(*key);
            else
                bench.type(std::get<char32_t>(typed));
        }
        while (!events.actions.empty()) {
            view.perform(events.actions.front(), bench);
            events.actions.pop_front();
        }
        for (const std::string& path : std::exchange(events.dropped, {})) bench.accept_drop(path);
        events.typing = bench.typing();
        bench.catch_up();
        const bool news = bench.state().revision != drawn_revision || bench.newest_number() != drawn_frame ||
                          bench.notice() != drawn_notice || bench.before_words() != drawn_before;
        if (!news && events.redraw <= 0) continue;
        if (events.redraw > 0) --events.redraw;
        drawn_revision = bench.state().revision, drawn_frame = bench.newest_number();
        drawn_notice = bench.notice();
        drawn_before = bench.before_words();
        int width = 0, height = 0;
        glfwGetWindowSize(window, &width, &height);
        if (width <= 0 || height <= 0) continue;  // minimised
        bench.set_window_size(width, height);

        const auto began = Clock::now();
        setting.update(bench, window);
        display.update(bench, window, view);
        view.update(bench);
        ImGui_ImplOpenGL3_NewFrame();
        ImGui_ImplGlfw_NewFrame();
        use_pixels(window);
        ImGui::NewFrame();
        const auto cut = view.draw(bench, setting.layout, setting.fonts, setting.scale);
        ImGui::Render();
        clear(window, view.theme());
        view.draw_pictures(static_cast<int>(ImGui::GetIO().DisplaySize.y));
        ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
        glfwSwapBuffers(window);
        meter.drawn(began, bench.newest_number());
        status.write(bench, setting.layout, cut, meter.pace());
    }
}

}  // namespace

void run_window(const BenchOptions& options) {
    quieten_video_plugin();  // before there is a second thread
    const GlfwSession session;
    Bench bench(options, [] { glfwPostEmptyEvent(); });
    Events events;
    Screen screen(bench.settings(), events);
    run_loop(bench, screen, events);
}

}  // namespace tonemend
