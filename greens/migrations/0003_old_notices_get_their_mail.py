from django.db import migrations


SENDING = ("state", "tries", "next_try_at", "claimed_at", "sent_at", "error")


def give_each_its_mail(apps, schema_editor):
    """What was mailed or waits goes on as a mail of its own; what nobody can read any more is let go."""
    here = schema_editor.connection.alias
    notices = apps.get_model("greens", "Notice").objects.using(here)
    mails = apps.get_model("greens", "Mail").objects.using(here)
    notices.filter(to__person=None).delete()
    for notice in notices.select_related("to"):
        told = {name: getattr(notice, name) for name in SENDING}
        mail = mails.create(
            club_id=notice.club_id, person_id=notice.to.person_id, key=f"at once {notice.pk}", **told
        )
        notices.filter(pk=notice.pk).update(person_id=notice.to.person_id, mail=mail)


class Migration(migrations.Migration):

    dependencies = [
        ('greens', '0002_mails_and_wishes'),
    ]

    operations = [
        migrations.RunPython(give_each_its_mail, migrations.RunPython.noop),
    ]
