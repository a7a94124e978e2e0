"""Long work: taken up once, ended once, found again when it was lost."""

from datetime import timedelta

import pytest
from django.utils import timezone

from greens.actions import job as jobs
from greens.choices import JobState
from greens.models import Job


def queued(cast, **more) -> Job:
    return jobs.queue_job(**{"club": cast.club, "kind": "count greens", "args": {}, "by": cast.head} | more)


def looked_at(job: Job) -> tuple:
    job.refresh_from_db()
    return job.state, job.result, job.error, job.tries


@pytest.mark.django_db
class TestOneJob:
    def test_what_it_found_is_kept(self, cast):
        job = queued(cast)
        jobs.do(job.pk, lambda job: {"greens": job.club.greens.count()})
        assert looked_at(job) == (JobState.DONE, {"greens": 1}, "", 1)
        assert job.made_at <= job.started_at <= job.finished_at

    def test_a_message_that_comes_twice_does_the_work_once(self, cast):
        job, done = queued(cast), []
        for _ in range(2):
            jobs.do(job.pk, lambda job: done.append(job.pk) or {})
        assert (done, looked_at(job)) == ([job.pk], (JobState.DONE, {}, "", 1))

    def test_a_message_about_a_row_that_is_gone_is_let_go(self, cast):
        jobs.do(987_654, lambda job: {})
        assert Job.objects.count() == 0

    def test_work_that_cannot_be_done_says_why(self, cast):
        def refuse(job):
            raise jobs.NotDone("The file is gone; upload it again.")

        job = queued(cast)
        jobs.do(job.pk, refuse)
        assert looked_at(job) == (JobState.FAILED, {}, "The file is gone; upload it again.", 1)

    def test_an_error_of_ours_is_said_without_its_innards(self, cast, caplog):
        job = queued(cast)
        jobs.do(job.pk, lambda job: {}["secret"])
        assert looked_at(job) == (JobState.FAILED, {}, jobs.BROKEN, 1)
        assert "KeyError: 'secret'" in caplog.text

    def test_it_says_how_far_it_is(self, cast):
        seen = []

        def half(job):
            jobs.say_how_far(job, 50, 200)
            seen.append(Job.objects.get(pk=job.pk).done_percent)
            return {}

        jobs.do(queued(cast).pk, half)
        assert seen == [25]

    def test_one_key_has_one_open_job(self, cast):
        first, second = (queued(cast, unique_key="forecast of 7") for _ in range(2))
        jobs.do(first.pk, lambda job: {})
        third = queued(cast, unique_key="forecast of 7")
        assert (second.pk, third.pk == first.pk, Job.objects.count()) == (first.pk, False, 2)

    def test_another_club_may_have_the_same_key(self, cast):
        queued(cast, unique_key="import")
        queued(cast, club=cast.other_green.club, by=cast.outsider, unique_key="import")
        assert Job.objects.count() == 2


def aged(job: Job, state: JobState, minutes: float, tries: int = 1) -> None:
    heard = timezone.now() - timedelta(minutes=minutes)
    Job.objects.filter(pk=job.pk).update(state=state, heard_at=heard, tries=tries)


@pytest.mark.django_db
class TestTheSweep:
    """A worker that is killed leaves a row that says 'at work' and never speaks again."""

    @pytest.mark.parametrize(
        ("minutes", "tries", "becomes"),
        [(9, 1, JobState.RUNNING), (11, 1, JobState.QUEUED), (11, 3, JobState.GIVEN_UP)],
        ids=["still alive", "lost", "lost three times"],
    )
    def test_what_fell_silent_is_queued_again_and_at_last_given_up(self, cast, minutes, tries, becomes):
        job = queued(cast)
        aged(job, JobState.RUNNING, minutes, tries)
        jobs.sweep()
        assert looked_at(job)[0] == becomes

    def test_who_was_thought_lost_may_neither_end_it_nor_go_on(self, cast):
        job = queued(cast)
        lost = jobs.claim(job.pk)
        aged(job, JobState.RUNNING, 11)
        jobs.sweep()
        jobs.do(job.pk, lambda job: {"by": "the second"})
        with pytest.raises(jobs.Superseded):
            jobs.say_how_far(lost, 1, 2)
        assert jobs.end(lost, JobState.FAILED, error="late") is False
        assert looked_at(job) == (JobState.DONE, {"by": "the second"}, "", 2)

    def test_what_ended_a_season_ago_is_forgotten(self, cast):
        old, fresh = queued(cast), queued(cast)
        for job, days in ((old, 91), (fresh, 89)):
            jobs.do(job.pk, lambda job: {})
            ended = timezone.now() - timedelta(days=days)
            Job.objects.filter(pk=job.pk).update(finished_at=ended)
        jobs.sweep()
        assert list(Job.objects.all()) == [fresh]
