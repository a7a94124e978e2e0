import datetime
import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('greens', '0001_initial'),
    ]

    operations = [
        migrations.CreateModel(
            name='Mail',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('key', models.CharField(max_length=80)),
                ('period', models.CharField(blank=True, max_length=20)),
                ('made_at', models.DateTimeField(auto_now_add=True)),
                ('state', models.CharField(choices=[('waiting', 'Waiting'), ('sending', 'On its way'), ('sent', 'Sent'), ('given up', 'Given up'), ('not needed', 'No longer needed')], default='waiting', max_length=10)),
                ('tries', models.PositiveSmallIntegerField(default=0)),
                ('next_try_at', models.DateTimeField()),
                ('claimed_at', models.DateTimeField(blank=True, null=True)),
                ('sent_at', models.DateTimeField(blank=True, null=True)),
                ('error', models.CharField(blank=True, max_length=300)),
            ],
            options={
                'ordering': ['-made_at', '-pk'],
            },
        ),
        migrations.CreateModel(
            name='Wish',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('paces', models.JSONField(blank=True, default=dict)),
                ('daily_at', models.TimeField(default=datetime.time(6, 30))),
                ('weekly_on', models.PositiveSmallIntegerField(default=0)),
                ('quiet_from', models.TimeField(blank=True, default=datetime.time(21, 0), null=True)),
                ('quiet_until', models.TimeField(blank=True, default=datetime.time(6, 0), null=True)),
                ('no_mail_since', models.DateTimeField(blank=True, null=True)),
            ],
        ),
        migrations.AddField(
            model_name='notice',
            name='asks_word',
            field=models.BooleanField(default=False),
        ),
        migrations.AddField(
            model_name='notice',
            name='asleep_until',
            field=models.DateTimeField(blank=True, null=True),
        ),
        migrations.AddField(
            model_name='notice',
            name='green',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='+', to='greens.green'),
        ),
        migrations.AddField(
            model_name='notice',
            name='kind',
            field=models.CharField(choices=[('against', 'Opened against the verdict'), ('opening', 'Planned opening too early'), ('play', 'A green in play falls back'), ('weather', 'Frost, heat or long wet'), ('ceiling', "Close to a season's limit"), ('recheck', 'Looking again after opening'), ('steps', 'Work due or overdue'), ('readings', 'Readings due or too old'), ('criterion', 'A bar newly met or lost'), ('stock', 'Stock too low for the next steps'), ('defect', "Contractor's defect due"), ('note', 'The week in plain words')], default='against', max_length=10),
        ),
        migrations.AddField(
            model_name='notice',
            name='lapsed_at',
            field=models.DateTimeField(blank=True, null=True),
        ),
        migrations.AddField(
            model_name='notice',
            name='mail_at',
            field=models.DateTimeField(blank=True, null=True),
        ),
        migrations.AddField(
            model_name='notice',
            name='period',
            field=models.CharField(blank=True, max_length=20),
        ),
        migrations.AddField(
            model_name='notice',
            name='person',
            field=models.ForeignKey(null=True, on_delete=django.db.models.deletion.CASCADE, related_name='notices', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='notice',
            name='weight',
            field=models.PositiveSmallIntegerField(default=0),
        ),
        migrations.AlterField(
            model_name='notice',
            name='key',
            field=models.CharField(max_length=120),
        ),
        migrations.AlterField(
            model_name='notice',
            name='to',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='notices', to='greens.membership'),
        ),
        migrations.AddField(
            model_name='mail',
            name='club',
            field=models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='mails', to='greens.club'),
        ),
        migrations.AddField(
            model_name='mail',
            name='person',
            field=models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='mails', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='notice',
            name='mail',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.SET_NULL, related_name='notices', to='greens.mail'),
        ),
        migrations.AddIndex(
            model_name='notice',
            index=models.Index(condition=models.Q(('mail', None)), fields=['mail_at'], name='notices_to_be_mailed'),
        ),
        migrations.AddIndex(
            model_name='notice',
            index=models.Index(fields=['to', 'seen_at'], name='greens_noti_to_id_4063e8_idx'),
        ),
        migrations.AddIndex(
            model_name='notice',
            index=models.Index(fields=['club', 'key'], name='greens_noti_club_id_58fd80_idx'),
        ),
        migrations.AddField(
            model_name='wish',
            name='left_out',
            field=models.ManyToManyField(blank=True, related_name='+', to='greens.green'),
        ),
        migrations.AddField(
            model_name='wish',
            name='member',
            field=models.OneToOneField(on_delete=django.db.models.deletion.CASCADE, related_name='wish', to='greens.membership'),
        ),
        migrations.AddIndex(
            model_name='mail',
            index=models.Index(fields=['state', 'next_try_at'], name='greens_mail_state_554abb_idx'),
        ),
        migrations.AddConstraint(
            model_name='mail',
            constraint=models.UniqueConstraint(fields=('club', 'person', 'key'), name='a_mail_of_a_key_is_made_once'),
        ),
    ]
