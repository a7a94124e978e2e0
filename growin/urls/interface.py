"""Where programs ask (``for_programs``), and the page that explains it to people."""

from django.urls import path, register_converter

from growin.interface.endpoints import ENDPOINTS
from growin.views import interface


class Anything:
    """Whatever else a program may send, line breaks too."""

    regex = r"[\s\S]*"

    def to_python(self, value: str) -> str:
        return value

    def to_url(self, value: str) -> str:
        return value


register_converter(Anything, "anything")

HERE = "interface/v1/"

urlpatterns = [path("interface/", interface.interface, name="interface")]
for_programs = [
    path(f"{HERE}description.json", interface.description, name="interface_description"),
    *(
        path(
            f"{HERE}clubs/<slug:club_slug>/{one.route}", interface.view_of(one), name=f"interface_{one.name}"
        )
        for one in ENDPOINTS
    ),
    path(f"{HERE}<anything:rest>", interface.nowhere, name="interface_nowhere"),
]
