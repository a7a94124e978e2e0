"""What a browser says of itself, as a person would call the device."""

SYSTEMS = {
    "iPhone": "an iPhone",
    "iPad": "an iPad",
    "Android": "Android",
    "Windows": "Windows",
    "CrOS": "a Chromebook",
    "Macintosh": "a Mac",
    "Linux": "Linux",
}
#: Those that pretend to be another as well come before it.
BROWSERS = {
    "Edg": "Edge",
    "OPR": "Opera",
    "SamsungBrowser": "Samsung browser",
    "Firefox": "Firefox",
    "FxiOS": "Firefox",
    "Chrome": "Chrome",
    "CriOS": "Chrome",
    "Safari": "Safari",
}


def device_words(agent: str) -> str:
    """ "Firefox on Android"; "a browser" of which nothing is known."""
    browser = next((words for mark, words in BROWSERS.items() if mark in agent), "a browser")
    system = next((words for mark, words in SYSTEMS.items() if mark in agent), "")
    return f"{browser} on {system}" if system else browser
