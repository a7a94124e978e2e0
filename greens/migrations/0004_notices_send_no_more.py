import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('greens', '0003_old_notices_get_their_mail'),
    ]

    operations = [
        migrations.RemoveConstraint(
            model_name='notice',
            name='nobody_is_told_the_same_twice',
        ),
        migrations.RemoveIndex(
            model_name='notice',
            name='greens_noti_state_2cc2f1_idx',
        ),
        migrations.RemoveField(
            model_name='notice',
            name='claimed_at',
        ),
        migrations.RemoveField(
            model_name='notice',
            name='error',
        ),
        migrations.RemoveField(
            model_name='notice',
            name='next_try_at',
        ),
        migrations.RemoveField(
            model_name='notice',
            name='sent_at',
        ),
        migrations.RemoveField(
            model_name='notice',
            name='state',
        ),
        migrations.RemoveField(
            model_name='notice',
            name='tries',
        ),
        migrations.AlterField(
            model_name='notice',
            name='person',
            field=models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='notices', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AlterField(
            model_name='notice',
            name='kind',
            field=models.CharField(choices=[('against', 'Opened against the verdict'), ('opening', 'Planned opening too early'), ('play', 'A green in play falls back'), ('weather', 'Frost, heat or long wet'), ('ceiling', "Close to a season's limit"), ('recheck', 'Looking again after opening'), ('steps', 'Work due or overdue'), ('readings', 'Readings due or too old'), ('criterion', 'A bar newly met or lost'), ('stock', 'Stock too low for the next steps'), ('defect', "Contractor's defect due"), ('note', 'The week in plain words')], max_length=10),
        ),
        migrations.AddConstraint(
            model_name='notice',
            constraint=models.UniqueConstraint(fields=('club', 'person', 'key'), name='nobody_is_told_the_same_twice'),
        ),
    ]
