// Fontconfig, under Cairo's text, keeps its pattern caches to the end of the process. The leak check of the
// sanitizers asks this function what to overlook; without sanitizers nothing calls it.
extern "C" const char* __lsan_default_suppressions();
extern "C" const char* __lsan_default_suppressions() {
    return "leak:libfontconfig\n";
}
