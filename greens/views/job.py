"""How far a piece of long work is, for the script on the page that shows it."""

from django.http import JsonResponse

from greens.access import Right, door
from greens.queries import job as queries


@door(Right.READ, job_id=("job", queries.one))
def job_state(request, here, job):
    said = {"state": job.state, "is_open": job.is_open, "done": job.done_count, "of": job.of_count}
    return JsonResponse(said)
