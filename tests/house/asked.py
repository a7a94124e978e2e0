"""Hears which fields a page reads, so that one which no form shows is known too."""

from django.http import QueryDict


class Heard(QueryDict):
    """What was sent; ``asked`` are the names that somebody looked for in it."""

    def __init__(self, sent: QueryDict):
        super().__init__("", mutable=True)
        for name, values in sent.lists():
            self.setlist(name, values)
        self._mutable, self.asked = False, set()

    def copy(self):
        return QueryDict(self.urlencode(), mutable=True)

    def __getitem__(self, name):
        self.asked.add(name)
        return super().__getitem__(name)

    def __contains__(self, name):
        self.asked.add(name)
        return super().__contains__(name)

    def _getlist(self, name, default=None, force_list=False):
        self.asked.add(name)
        return super()._getlist(name, default, force_list)


def heard(get_response):
    """A middleware: the answer tells what was ``asked`` of the form, and ``sought`` in the address."""

    def answer(request):
        request._post, request.GET = Heard(request.POST), Heard(request.GET)
        said = get_response(request)
        said.asked, said.sought = request._post.asked, request.GET.asked
        return said

    return answer
